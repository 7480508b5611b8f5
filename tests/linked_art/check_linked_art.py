#!/usr/bin/python3
"""Checks folders of Linked Art records against the published schemas, the published context, and each other.

Usage: check_linked_art.py STANDARDS FOLDER ... ; options before: --schemas-of N (every Nth file only is held against the
schemas), --expand-of N. Prints a line for each fault; exit code 0 when there is none. The checks and their numbers are
those of docs/linked-art.md, 'What is checked'. Everything else looks at every file.
"""
import json
import os
import re
import sys

CONTEXT = "https://linked.art/ns/v1/linked-art.json"
SCHEMAS = {"HumanMadeObject": "object", "Place": "place", "VisualItem": "image", "LinguisticObject": "text",
           "Person": "person", "Group": "group", "Activity": "event", "Event": "event", "Period": "event",
           "DigitalObject": "digital", "Set": "set", "Type": "concept", "Material": "concept", "Language": "concept",
           "MeasurementUnit": "concept", "Currency": "concept"}
MOMENT = re.compile(r"\d{4}-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d(Z|[+-]\d\d:\d\d)$")
AAT = "http://vocab.getty.edu/aat/"
PRIMARY, STATEMENT = AAT + "300404670", AAT + "300418049"
MARKINGS, INSCRIPTION = AAT + "300435420", AAT + "300435414"
# The context names the extensions by addresses that their published models no longer use.
NOW = {"http://www.ics.forth.gr/isl/CRMdig/": "http://www.cidoc-crm.org/extensions/crmdig/",
       "http://www.ics.forth.gr/isl/CRMsci/": "http://www.cidoc-crm.org/extensions/crmsci/",
       "http://www.cidoc-crm.org/cidoc-crm/CRMarchaeo/": "http://www.cidoc-crm.org/extensions/crmarchaeo/"}
ABSOLUTE = re.compile(r"https?://[^\s<>\"{}|\\^`/]+/?[^\s<>\"{}|\\^`]*$")


def load_schemas(standards):
    import jsonschema
    folder = os.path.join(standards, "linked-art", "schema-1.0")
    store = {}
    for name in os.listdir(folder):
        with open(os.path.join(folder, name), encoding="utf-8") as file:
            schema = json.load(file)
        store[schema["$id"]] = schema
        store["https://linked.art/api/1.0/schema/" + name] = schema
    formats = jsonschema.FormatChecker()
    formats.checks("date-time")(lambda text: not isinstance(text, str) or bool(MOMENT.match(text)))
    formats.checks("uri")(lambda text: not isinstance(text, str) or bool(re.match(r"[A-Za-z][A-Za-z0-9+.-]*:\S+$", text)))
    validators = {}
    for name in set(SCHEMAS.values()):
        schema = store["https://linked.art/api/1.0/schema/%s.json" % name]
        resolver = jsonschema.RefResolver(schema["$id"], schema, store=store)
        validators[name] = jsonschema.Draft202012Validator(schema, resolver=resolver, format_checker=formats)
    return validators


class Check:
    def __init__(self, standards, folder, schemas, terms):
        self.folder, self.schemas, self.terms, self.faults = folder, schemas, terms, []
        with open(os.path.join(folder, "index.json"), encoding="utf-8") as file:
            self.index = json.load(file)
        self.base = self.index["base"]
        self.records = {}
        for path, _, names in sorted(os.walk(folder)):
            for name in sorted(names):
                where = os.path.relpath(os.path.join(path, name), folder)
                if where == "index.json":
                    continue
                with open(os.path.join(path, name), encoding="utf-8") as file:
                    self.records[where] = json.load(file)
        self.types = {one.get("id"): one.get("type") for one in self.records.values()}

    def fault(self, number, text, *rest):
        self.faults.append("check %s: %s %s" % (number, text, " ".join(str(one) for one in rest)))

    def schema(self, where, record):
        name = SCHEMAS.get(record.get("type"))
        if not name:
            return self.fault(1, "is of no type with a schema:", where, record.get("type"))
        for error in self.schemas[name].iter_errors(record):
            self.fault(1, "%s breaks %s.json at /%s:" % (where, name, "/".join(map(str, error.absolute_path))),
                       error.message[:200])

    def top(self, where, record):
        if record.get("@context") != CONTEXT:
            self.fault(2, "another context:", where)
        name = str(record.get("id"))
        if not ABSOLUTE.match(name) or name != self.base + where[:-len(".json")]:
            self.fault(3, "the id is not the address of the record:", where, name)
        primary = [one.get("language", [{}])[0].get("id") for one in record.get("identified_by", [])
                   if any(c.get("id") == PRIMARY for c in one.get("classified_as", []))]
        if len(primary) == 0 or len(set(primary)) != len(primary):
            self.fault(4, "not one primary name per language:", where)
        if record["type"] == "HumanMadeObject" and (isinstance(record.get("part_of", {}), list) or "part" in record):
            self.fault(5, "part_of is one object, and part is not written:", where)
        if not record.get("_label"):
            self.fault(18, "no label:", where)

    def node(self, where, node, key):
        kind = node.get("type")
        if "id" in node:
            self.reference(where, node, kind)
        if kind == "TimeSpan":
            found = [node[k] for k in ("begin_of_the_begin", "end_of_the_end") if k in node]
            if any(not MOMENT.match(one) for one in found) or found != sorted(found):
                self.fault(9, "a time-span that is malformed or ends before it begins:", where, found)
            if "end_of_the_end" in node and not node["end_of_the_end"].endswith("23:59:59Z"):
                self.fault(9, "an end that is not the last second of its day:", where)
        if kind == "AttributeAssignment":
            term = node.get("assigned_property")
            if term is not None and term not in self.terms:
                self.fault(10, "no term of the context:", where, term)
            if not isinstance(node.get("assigned"), list):
                self.fault(11, "assigned is no list:", where)
        if kind == "LinguisticObject" and key in ("referred_to_by", "assigned") and "content" in node:
            if not any(s.get("id") == STATEMENT for c in node.get("classified_as", []) for s in c.get("classified_as", [])):
                self.fault(12, "a statement that does not say so:", where, node["content"][:60])
        if kind == "Dimension" and (isinstance(node.get("value"), bool) or not isinstance(node.get("value"), (int, float))
                                    or "id" not in node.get("unit", {})):
            self.fault(13, "a dimension without number or unit:", where)

    def reference(self, where, node, kind):
        name = node["id"]
        if name.startswith(self.base):
            if name not in self.types:
                self.fault(8, "names what was not exported:", where, name)
            elif self.types[name] != kind:
                self.fault(8, "names a %s as a %s:" % (self.types[name], kind), where, name)

    def walk(self, where, node, key=""):
        if isinstance(node, dict):
            self.node(where, node, key)
            for name, value in node.items():
                self.walk(where, value, name)
        elif isinstance(node, list):
            for one in node:
                self.walk(where, one, key)

    def places(self, where, record):
        """14. A building or room is an object, with a Place beside it; a file of the index is there."""
        words = [c.get("id", "") for c in record.get("classified_as", [])]
        if record["type"] == "Place" and any(w.endswith(("place-type.room", "place-type.building")) for w in words):
            self.fault(14, "a building or room as a Place:", where)

    def doubtful(self, where, record):
        """15. What is only claimed with doubt, or replaced, is not in the plain property too."""
        trusted, doubted = {}, {}
        for one in record.get("attributed_by", []):
            term, words = one.get("assigned_property"), [c["id"] for c in one.get("classified_as", [])]
            doubt = any(w.endswith(("confidence.possible", "confidence.conjecture")) or "/standing." in w for w in words)
            for value in one["assigned"] if isinstance(one.get("assigned"), list) else []:
                (doubted if doubt else trusted).setdefault(term, []).append(json.dumps(value, sort_keys=True))
        for term, values in doubted.items():
            plain = record.get(term, [])
            plain = [json.dumps(one, sort_keys=True) for one in (plain if isinstance(plain, list) else [plain])]
            for value in values:
                if term and value in plain and value not in trusted.get(term, []):
                    self.fault(15, "a doubtful value in the plain property:", where, term, value[:100])

    def markings(self, where, record):
        """16. What an object shows or carries, its own record also says in words, and the other way round."""
        if record["type"] != "HumanMadeObject":
            return
        for term, sort in (("shows", MARKINGS), ("carries", INSCRIPTION)):
            told = [one["content"] for one in record.get("referred_to_by", [])
                    if any(c.get("id") == sort for c in one.get("classified_as", []))]
            signs = [one.get("_label", "") for one in record.get(term, [])]
            for sign in signs:
                if not any(text.startswith(sign) for text in told):
                    self.fault(16, "no statement of what is on it:", where, sign)
            if len(told) != len(signs):
                self.fault(16, "%d statements of signs, %d in %s:" % (len(told), len(signs), term), where)

    def run(self, every):
        listed = set()
        for one in self.index["records"]:
            listed.add(one["file"])
            record = self.records.get(one["file"])
            if record is None or record.get("id") != one["id"] or record.get("type") != one["type"]:
                self.fault(14, "the index names what is not there:", one["file"])
        if self.index["files"] != len(self.records):
            self.fault(14, "the index counts other files:", self.index["files"], len(self.records))
        for number, (where, record) in enumerate(self.records.items()):
            if number % every == 0:
                self.schema(where, record)
            self.top(where, record)
            self.walk(where, record)
            self.places(where, record)
            self.doubtful(where, record)
            self.markings(where, record)
        return self.faults


def keys(node):
    """How many members and types a document says, to be held against how many its expansion has."""
    if isinstance(node, list):
        return sum(keys(one) for one in node)
    if not isinstance(node, dict):
        return 0
    if set(node) <= {"@value", "@type", "@language"}:
        return 0
    return sum((0 if name in ("@context", "id", "@id") else 1) + keys(value) for name, value in node.items())


def addresses(node):
    """Every @id and @type of an expanded document that is no absolute address."""
    if isinstance(node, list):
        for one in node:
            yield from addresses(one)
    elif isinstance(node, dict):
        for name, value in node.items():
            if name in ("@id", "@type"):
                for one in value if isinstance(value, list) else [value]:
                    if not re.match(r"[A-Za-z][A-Za-z0-9+.-]*:[^\s<>\"{}|\\^`]*$", one):
                        yield one
            else:
                yield from addresses(value)


def expand(standards, records):
    """6. Expansion as in the safe mode of JSON-LD processors, which PyLD does not have: nothing is dropped, since every
    member of every object is counted before and after, and no address or type is relative. Gives the expanded records."""
    from pyld import jsonld
    with open(os.path.join(standards, "linked-art", "ns-v1", "linked-art.json"), encoding="utf-8") as file:
        context = json.load(file)["@context"]
    faults = []
    bodies = [{k: v for k, v in record.items() if k != "@context"} for _, _, record in records]
    expanded = jsonld.expand({"@context": context, "@graph": bodies})
    if len(expanded) != len(bodies):
        return ["check 6: expansion has %d records of %d" % (len(expanded), len(bodies))], expanded
    for (folder, where, _), body, after in zip(records, bodies, expanded):
        if keys(body) != keys(after):
            faults.append("%s: check 6: %d members before, %d after expansion: %s"
                          % (folder, keys(body), keys(after), where))
        faults += ["%s: check 6: no absolute address: %s %s" % (folder, where, one) for one in addresses(after)]
    return faults, expanded


def now(iri):
    """17. The address that the published model uses today."""
    for old, new in NOW.items():
        if iri.startswith(old):
            return new + iri[len(old):]
    return iri


def shapes(standards, expanded):
    """7. The triples keep the domains and ranges of the published models, what stands in P177 apart; 17. with the addresses
    of the context mapped to those of the models, every class of the CRM family is declared."""
    from pyld import jsonld
    sys.path.insert(0, os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "crm"))
    import check_crm
    import rdf_store
    models, faults = rdf_store.Models(os.path.join(standards, "cidoc-crm")), []
    for folder, documents in expanded.items():
        triples = set()
        for triple in jsonld.to_rdf(documents).get("@default", []):
            s, p, o = (triple[part] for part in ("subject", "predicate", "object"))
            if p["value"] == rdf_store.CRM + "P177_assigned_property_of_type":
                continue
            literal = o["type"] == "literal"
            end = (o["value"], o.get("language", ""), o.get("datatype", "")) if literal else now(o["value"])
            triples.add((now(s["value"]), now(p["value"]), end))
        check = check_crm.Check(models, rdf_store.Store(triples), None)
        check.domains_and_ranges()
        faults += [folder + ": " + one.replace("check 2:", "check 7:") for one in check.faults]
        for _, kind in check.store.by[rdf_store.TYPE]:
            if ("cidoc-crm.org" in kind or "ics.forth.gr" in kind) and kind not in models.declared:
                faults.append("%s: check 17: a class that no published model declares: %s" % (folder, kind))
    return faults


def main(arguments):
    every = {"--schemas-of": 1, "--expand-of": 1}
    while arguments and arguments[0] in every:
        every[arguments[0]] = int(arguments[1])
        arguments = arguments[2:]
    standards, folders = arguments[0], arguments[1:]
    schemas = load_schemas(standards)
    with open(os.path.join(standards, "linked-art", "ns-v1", "linked-art.json"), encoding="utf-8") as file:
        text = file.read()
    terms = set(re.findall(r'"([a-z_]+)"\s*:', text))
    faults, seen, records = [], 0, []
    for folder in folders:
        check = Check(standards, folder, schemas, terms)
        faults += ["%s: %s" % (os.path.basename(folder), one) for one in check.run(every["--schemas-of"])]
        records += [(os.path.basename(folder), where, record) for where, record in check.records.items()]
        seen += len(check.records)
    some = records[::every["--expand-of"]]
    dropped, expanded = expand(standards, some)
    by_folder = {}
    for (folder, _, _), document in zip(some, expanded):
        by_folder.setdefault(folder, []).append(document)
    faults += dropped + shapes(standards, by_folder)
    for line in sorted(set(faults)):
        print(line)
    print("%d records" % seen)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
