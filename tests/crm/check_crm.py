#!/usr/bin/python3
"""Checks exports against the published models of the CIDOC CRM family, its shapes, and the archives they came from.

Usage: check_crm.py FOLDER_WITH_RDFS EXPORT.nt [FACTS.json]. Prints a line for each fault; exit code 0 when there is none.
The checks and their numbers are those of docs/crm.md, 'What is checked'.
"""
import collections
import json
import os
import re
import sys

from rdf_store import CRM, EXT, PROV, RDF, RDFS, SUB_PROPERTY, TYPE, XSD, Models, Store, closure, in_a_loop, read_lines

DATE = re.compile(r"-?([1-9]\d{3,}|0\d{3})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d"
                  r"(Z|[+-](0\d|1[0-4]):[0-5]\d)$")
INF, BA, ARCHAEO = EXT + "crminf/", EXT + "crmba/", EXT + "crmarchaeo/"
SCALE = ("certain", "probable", "possible", "conjecture")
P1, P2, P190 = CRM + "P1_is_identified_by", CRM + "P2_has_type", CRM + "P190_has_symbolic_content"
J30, J31, J32 = INF + "J30_has_domain", INF + "J31_has_range", INF + "J32_has_property_type"
CLAIM, BELIEF = INF + "I17_One-Proposition_Set", INF + "I2_Belief"
AP11 = ARCHAEO + "AP11_has_physical_relation_to"


class Check:
    def __init__(self, models, store, facts):
        self.models, self.store, self.facts, self.faults = models, store, facts, []
        self.warnings = []
        self.classes = collections.defaultdict(set)
        for node, cls in store.by[TYPE]:
            self.classes[node] |= models.classes(cls)
        self.wider = {}

    def fault(self, number, text, *nodes):
        self.faults.append("check %s: %s %s" % (number, text, " ".join(str(node) for node in nodes)))

    def properties(self, predicate):
        """The property and all that are wider, by the models and by the file's own declarations."""
        if predicate not in self.wider:
            self.wider[predicate] = closure(
                {predicate}, lambda one: list(self.models.wider.get(one, ())) + self.store.of(one, SUB_PROPERTY))
        return self.wider[predicate]

    def holds(self, s, predicate, o, number):
        for one in self.properties(predicate):
            for domain in self.models.domain.get(one, set()) - self.classes[s]:
                self.fault(number, "domain:", s, one, domain)
            for range_ in self.models.range.get(one, ()):
                literal = isinstance(o, tuple)
                if literal != (range_ == RDFS + "Literal") or (not literal and range_ not in self.classes[o]):
                    self.fault(number, "range:", s, one, o, range_)

    # CIDOC CRM and its extensions

    def names(self):
        for thing in set(p for _, p, _ in self.store.triples) | set(o for _, o in self.store.by[TYPE] +
                                                                     self.store.by[SUB_PROPERTY]):
            if "cidoc-crm.org" in thing and thing not in self.models.declared:
                self.fault(1, "is declared nowhere:", thing)

    def domains_and_ranges(self):
        for s, p, o in self.store.triples:
            if p not in (TYPE, RDFS + "label", RDFS + "comment", SUB_PROPERTY):
                self.holds(s, p, o, 2)

    def shapes(self, folder):
        """The published shapes, of which only targets and classes are made use of, so that is all that is needed here."""
        import rdflib
        sh = rdflib.Namespace("http://www.w3.org/ns/shacl#")
        graph = rdflib.Graph().parse(os.path.join(folder, "crm-domain-range.shacl.ttl"), format="turtle")
        known = {sh.targetSubjectsOf, sh.targetObjectsOf, sh["class"], sh.nodeKind, sh.message, rdflib.RDF.type}
        odd = set(graph.predicates()) - known
        if odd:
            self.fault("shape", "the shapes use what is not read here:", *odd)
        for shape in set(graph.subjects(rdflib.RDF.type, sh.NodeShape)):
            classes = [str(c) for c in graph.objects(shape, sh["class"])]
            literal = (shape, sh.nodeKind, sh.Literal) in graph
            for target, end in ((sh.targetSubjectsOf, 0), (sh.targetObjectsOf, 1)):
                for p in graph.objects(shape, target):
                    for pair in self.store.by.get(str(p), ()):
                        node = pair[end]
                        if isinstance(node, tuple) != literal or any(c not in self.classes[node] for c in classes):
                            self.fault("shape", str(graph.value(shape, sh.message)) + ":", *pair)

    def disjoint(self):
        for node, kinds in list(self.classes.items()):
            for a, b in (("E2_Temporal_Entity", "E77_Persistent_Item"), ("E18_Physical_Thing", "E28_Conceptual_Object")):
                if CRM + a in kinds and CRM + b in kinds:
                    self.fault(3, a + " and " + b + ":", node)

    def nodes(self):
        for s, p, o in self.store.triples:
            for node in (s, o):
                if isinstance(node, str) and node.startswith("_:"):
                    self.fault(5, "a blank node:", s, p)
                elif isinstance(node, str) and p not in (TYPE, SUB_PROPERTY) and not self.classes.get(node):
                    self.fault(4, "has no type:", node)
                # 19. What neither Turtle nor XML takes in an address (RFC 3987, section 2.2).
                if isinstance(node, str) and re.search(r'[\x00-\x20<>"{}|^`\\]', node):
                    self.fault(19, "is no address:", node)
        for s, o in self.store.by[P1]:
            if sum(CRM + "E42_Identifier" in self.classes[one] for one in self.store.of(s, P1)) > 1:
                self.fault(5, "has several identifiers:", s)

    def dates(self):
        bounds = [CRM + p for p in ("P82a_begin_of_the_begin", "P81a_end_of_the_begin", "P81b_begin_of_the_end",
                                    "P82b_end_of_the_end")]
        for s, p, o in self.store.triples:
            if isinstance(o, tuple) and o[2] == XSD + "dateTime" and not DATE.match(o[0]):
                self.fault(6, "is no full date and time:", s, o[0])
            if p in bounds and (not isinstance(o, tuple) or o[2] != XSD + "dateTime"):
                self.fault(6, "is no xsd:dateTime:", s, o)
        for span in self.store.typed(CRM + "E52_Time-Span"):
            found = [[o[0] for o in self.store.of(span, p)] for p in bounds]
            if any(len(values) > 1 for values in found):
                self.fault(6, "has two bounds of one kind:", span)
            order = [when(values[0]) for values in found if values and DATE.match(values[0])]
            if order != sorted(order):
                self.fault(6, "bounds out of order:", span, order)
            if (len(found[1]) == 0) != (len(found[2]) == 0):
                self.fault(6, "has one inner bound only:", span)

    def appellations(self):
        for cls in ("E33_E41_Linguistic_Appellation", "E42_Identifier", "E35_Title"):
            for node in self.store.typed(CRM + cls):
                if len(self.store.of(node, P190)) != 1:
                    self.fault(7, "has not one P190:", node)

    def needs(self):
        needed = [(8, "E79_Part_Addition", ["P110_augmented", "P111_added"]),
                  (8, "E80_Part_Removal", ["P112_diminished", "P113_removed"]),
                  (8, "E9_Move", ["P25_moved", "P26_moved_to"]), (8, "E11_Modification", ["P31_has_modified"]),
                  (8, "E12_Production", ["P108_has_produced"]),
                  (14, "E14_Condition_Assessment", ["P34_concerned", "P35_has_identified"]),
                  (14, "E16_Measurement", ["P39_measured", "P40_observed_dimension"]),
                  (14, "E54_Dimension", ["P90_has_value", "P91_has_unit"]), (14, "E3_Condition_State", ["P2_has_type"]),
                  (17, "PC14_carried_out_by", ["P01_has_domain", "P02_has_range", "P14.1_in_the_role_of"])]
        for number, cls, properties in needed:
            for node in self.store.typed(CRM + cls):
                for p in properties:
                    if not self.store.of(node, CRM + p):
                        self.fault(number, cls + " without " + p + ":", node)
        for node in self.store.typed(CRM + "PC14_carried_out_by"):
            for act in self.store.of(node, CRM + "P01_has_domain"):
                for actor in self.store.of(node, CRM + "P02_has_range"):
                    if actor not in self.store.of(act, CRM + "P14_carried_out_by"):
                        self.fault(17, "a role without its plain P14:", node)

    def relations(self):
        own = [p for p, wide in self.store.by[SUB_PROPERTY] if wide == AP11]
        used = set(p for _, p, _ in self.store.triples if "/property/" in p)
        for p in used:
            if not self.store.of(p, SUB_PROPERTY):
                self.fault(10, "an own property that is not declared below another:", p)
        for p in own:
            for s, o in self.store.by[p]:
                if s == o:
                    self.fault(11, "is above itself:", s, p)
                if p.endswith(("bonded-with", "touches", "once-continuous-with")) and s not in self.store.of(o, p):
                    self.fault(11, "not written both ways:", s, p, o)
        before = [e for p in ("P183_ends_before_the_start_of",) for e in self.store.by[CRM + p]]
        for node in in_a_loop(before):
            self.fault(11, "ends before it begins, by way of others:", node)

    def parts(self):
        for p in (CRM + "P46i_forms_part_of", BA + "BP1_is_section_of", CRM + "P89_falls_within",
                  CRM + "P127_has_broader_term"):
            for node in in_a_loop(self.store.by[p]):
                self.fault(12, "is within itself:", node, p)

    def signs(self):
        for p, end, allowed in (("P56i_is_found_on", 0, ("E25_Human-Made_Feature", "E26_Physical_Feature")),
                                ("P56_bears_feature", 1, ("E25_Human-Made_Feature", "E26_Physical_Feature")),
                                ("P65_shows_visual_item", 1, ("E36_Visual_Item",)),
                                ("P128_carries", 1, ("E34_Inscription", "E31_Document", "E36_Visual_Item"))):
            for pair in self.store.by[CRM + p]:
                if not any(CRM + cls in self.classes[pair[end]] for cls in allowed):
                    self.fault(13, "a sign where the thing is meant, or the other way round:", *pair)

    def types(self):
        for node, kinds in list(self.classes.items()):
            if CRM + "E55_Type" in kinds and not self.store.of(node, RDFS + "label"):
                self.fault(15, "an E55 without label:", node)
            if "vocab.getty.edu" in node and not node.startswith("http://vocab.getty.edu/"):
                self.fault(15, "not the form in which AAT names its terms:", node)

    def places(self):
        p55 = CRM + "P55_has_current_location"
        for s in set(s for s, _ in self.store.by[p55]):
            now = self.store.of(s, p55)
            moved_to = [place for move, thing in self.store.by[CRM + "P25_moved"] if thing == s
                        for place in self.store.of(move, CRM + "P26_moved_to")]
            if len(now) > 1 or (moved_to and now[0] not in moved_to):
                self.fault(16, "several places at once, or not where it was moved to:", s)

    # CRMinf and PROV

    def claims(self):
        said = collections.defaultdict(set)
        for claim in self.store.typed(CLAIM):
            ends = [self.store.of(claim, p) for p in (J30, J31, J32)]
            if [len(one) for one in ends] != [1, 1, 1]:
                self.fault("claim 1", "not one of J30, J31, J32:", claim)
            elif isinstance(ends[1][0], tuple):
                self.fault("claim 4", "J31 is a literal:", claim)
            else:
                if CRM + "E55_Type" not in self.classes[ends[2][0]]:
                    self.fault("claim 5", "J32 is no E55:", claim)
                self.holds(ends[0][0], ends[2][0], ends[1][0], "claim 5")
                said[claim] = (ends[0][0], ends[2][0], ends[1][0])
        concluded = collections.Counter(o for _, o in self.store.by[INF + "J2_concluded_that"])
        beliefs = collections.defaultdict(list)
        for belief in self.store.typed(BELIEF):
            that = self.store.of(belief, INF + "J4_that")
            if len(that) != 1 or concluded[belief] == 0:
                self.fault("claim 2", "not one J4, or concluded by nothing:", belief)
            scale = [o[0] for o in self.store.of(belief, INF + "J5_holds_to_be")]
            if len(scale) != 1 or scale[0] not in SCALE:
                self.fault("claim 2", "confidence:", belief, scale)
            elif len(that) == 1:
                beliefs[that[0]].append((scale[0], bool(self.store.of(belief, P2))))
        self.plain(said, beliefs)
        for act, needed in (("I7_Belief_Adoption", "J7_is_based_on_evidence_from"),
                            ("I5_Inference_Making", "J1_used_as_premise")):
            for node in self.store.typed(INF + act):
                if not self.store.of(node, INF + needed):
                    self.fault("claim 3", act + " without " + needed + ":", node)
        for node, premise in self.store.by[INF + "J1_used_as_premise"]:
            if BELIEF not in self.classes[premise]:
                self.fault("claim 3", "a premise that is no belief of this file:", premise)
        rests = [(belief, premise) for act, premise in self.store.by[INF + "J1_used_as_premise"]
                 for belief in self.store.of(act, INF + "J2_concluded_that")]
        for node in in_a_loop(rests):
            self.fault("claim 8", "rests on itself:", node)
        for act, source in self.store.by[INF + "J7_is_based_on_evidence_from"]:
            if CRM + "E73_Information_Object" not in self.classes[source]:
                self.fault("claim 9", "the source is no E73:", act, source)

    def late_sources(self):
        """10. Only a warning, as the guide has it: what was concluded before its source was made."""
        span = CRM + "P4_has_time-span"
        for act, passage in self.store.by[INF + "J7_is_based_on_evidence_from"]:
            ends = [when(o[0]) for one in self.store.of(act, span)
                    for o in self.store.of(one, CRM + "P82b_end_of_the_end")]
            for source in self.store.of(passage, CRM + "P106i_forms_part_of") or [passage]:
                begins = [when(o[0]) for birth in self.store.of(source, CRM + "P94i_was_created_by")
                          for one in self.store.of(birth, span)
                          for o in self.store.of(one, CRM + "P82a_begin_of_the_begin")]
                if ends and begins and max(ends) < min(begins):
                    self.warnings.append("warning, claim 10: concluded before its source was made: " + act)

    def plain(self, said, beliefs):
        """6. What is doubtful, superseded or contested is not said plainly; what nobody doubts is."""
        trusted = set(said[c] for c in said if any(j5 in SCALE[:2] and not aside for j5, aside in beliefs[c]))
        clerical = set(said[c] for c in said if not beliefs[c])
        values, turned = collections.Counter(), set()
        for s, p, o in said.values():
            values[s, p] += 1
            turned.add((o, p, s))
        for claim, (s, p, o) in said.items():
            wide = [one for one in self.store.of(p, SUB_PROPERTY)]
            written = any(o in self.store.of(s, one) for one in [p] + wide)
            # AP11 alone is also written by other relations between the two.
            own = any(o in self.store.of(s, one) for one in [p] + wide if one != AP11)
            doubted = (s, p, o) not in trusted and (s, p, o) not in clerical
            shared = sum(1 for c in said if said[c][0] == s and said[c][2] == o) if doubted and own else 0
            if doubted and own and shared < 2:
                self.fault("claim 6", "is said plainly although nobody holds it:", claim)
            sure = any(j5 == "certain" and not aside for j5, aside in beliefs[claim])
            if wide and sure and not written and values[s, p] == 1 and (s, p, o) not in turned:
                self.fault("claim 6", "is certain and uncontested, but not said plainly:", claim)

    def keeping(self):
        for p in ("wasRevisionOf", "wasDerivedFrom"):
            for node in in_a_loop(self.store.by[PROV + p]):
                self.fault("claim 14", "is derived from itself:", node)
        for s, o in self.store.by[PROV + "generatedAtTime"]:
            if not isinstance(o, tuple) or o[2] != XSD + "dateTime" or not DATE.match(o[0]):
                self.fault("claim 14", "is no date and time:", s)
            elif self.facts and o[0][:10] > self.facts["today"]:
                self.fault("claim 14", "is entered in the future:", s)

    # Against the archive

    def archive(self):
        store, facts = self.store, self.facts
        written = set(store.typed(CLAIM))
        stated = set(claim["id"] for claim in facts["claims"])
        reckoned = set(c for c in written if c.endswith("-reckoned"))
        for claim in sorted(stated ^ (written - reckoned)):
            self.fault(18, "a claim without statement, or a statement without claim:", claim)
        believed = collections.Counter(store.of(b, INF + "J4_that")[0] for b in store.typed(BELIEF)
                                       if store.of(b, INF + "J4_that"))
        for claim in facts["claims"]:
            self.statement(claim, believed[claim["id"]])
        for record, kind in facts["records"]:
            if record not in self.classes:
                self.fault(18, "a record that is not there:", kind, record)
        for record, text in facts["names"]:
            known = [c[0] for n in store.of(record, P1) for c in store.of(n, P190)]
            if text not in known:
                self.fault(7, "a name is lost:", record, text)
        removed = set(o for _, o in store.by[CRM + "P113_removed"])
        for piece in facts["removed"]:
            if piece not in removed:
                self.fault(9, "taken out, and still written as in place:", piece)
        built = collections.defaultdict(list)
        for s, o in store.by[BA + "BP1_is_section_of"]:
            built[s].append(o)
        for room in facts["rooms"]:
            reached = closure({room}, lambda one: built[one])
            if not any(BA + "B1_Built_Work" in store.of(one, TYPE) for one in reached):
                self.fault(12, "a room that reaches no building:", room)

    def statement(self, claim, beliefs):
        name, store = claim["id"], self.store
        if beliefs != (1 if claim["confidence"] != "none" else 0):
            self.fault("claim 7", "%d beliefs:" % beliefs, name)
        if claim["confidence"] != "none":
            if [o[0] for o in store.of(name + "-belief", INF + "J5_holds_to_be")] != [claim["confidence"]]:
                self.fault("claim 7", "another confidence than was stated:", name)
        locators = [n[0] for p in store.of(name + "-adoption", INF + "J7_is_based_on_evidence_from")
                    for n in store.of(p, CRM + "P3_has_note")]
        for locator in claim["locators"]:
            if locator not in locators:
                self.fault("claim 9", "the place in the source is lost:", name, locator)
        if claim["superseded"]:
            ended = store.of(name, PROV + "wasInvalidatedBy") or name in self.revised
            if not ended or (claim["confidence"] != "none" and not store.of(name + "-belief", P2)):
                self.fault("claim 11", "is superseded, and does not say so:", name)
        if "recorder" in claim and store.of(name, PROV + "wasAttributedTo") != [claim["recorder"]]:
            self.fault("claim 13", "not attributed to who entered it:", name)
        acts = [name + part for part in ("-adoption", "-inference", "-argument") if name + part in store.about]
        for act in acts:
            if store.of(act, CRM + "P14_carried_out_by") != ([claim["author"]] if "author" in claim else []):
                self.fault("claim 13", "not carried out by who said it:", act)
        for span in store.of(name, J31):
            for key, p in (("first", "P82a_begin_of_the_begin"), ("last", "P82b_end_of_the_end")):
                if key in claim and [o[0] for o in store.of(span, CRM + p)] != ([claim[key]] if claim[key] else []):
                    self.fault(6, "another bound than was stated:", span, key)

    def run(self, folder):
        self.revised = set(o for _, o in self.store.by[PROV + "wasRevisionOf"])
        for check in (self.names, self.domains_and_ranges, self.disjoint, self.nodes, self.dates, self.appellations,
                      self.needs, self.relations, self.parts, self.signs, self.types, self.places, self.claims,
                      self.late_sources, self.keeping):
            check()
        self.shapes(folder)
        if self.facts:
            self.archive()
        return sorted(set(self.faults))


def when(text):
    """A date and time in a form that can be ordered, years before the first too."""
    match = re.match(r"(-?\d+)-(.*)", text)
    return int(match.group(1)), match.group(2)


def main(folder, export, facts=None):
    with_facts = None
    if facts:
        with open(facts, encoding="utf-8") as file:
            with_facts = json.load(file)
    store = Store((s, p, o) for s, p, o, _ in read_lines(export))
    check = Check(Models(folder), store, with_facts)
    faults = check.run(folder)
    for line in check.warnings:
        print(line, file=sys.stderr)
    for line in faults:
        print(line)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(*sys.argv[1:]))
