"""Triples in dictionaries, read from N-Triples, and the published models: shared by the checks of this folder.

A node is the text of its IRI; a literal is a tuple (words, language, datatype).
"""
import collections
import os
import re
import xml.etree.ElementTree

CRM = "http://www.cidoc-crm.org/cidoc-crm/"
EXT = "http://www.cidoc-crm.org/extensions/"
RDF = "http://www.w3.org/1999/02/22-rdf-syntax-ns#"
RDFS = "http://www.w3.org/2000/01/rdf-schema#"
XSD = "http://www.w3.org/2001/XMLSchema#"
PROV = "http://www.w3.org/ns/prov#"
TYPE = RDF + "type"
SUB_PROPERTY = RDFS + "subPropertyOf"
MODELS = ["cidoc_crm_v7.1.3.rdf", "CRMarchaeo_v2.1.1.rdf", "CRMba_v1.4.rdf", "CRMinf_v1.2.1.rdf", "CRMsci_v3.2.rdf",
          "CRMdig_v5.0.rdf", "CIDOC_CRM_v7.1.2_PC.rdf"]
LINE = re.compile(r'<([^>]*)> <([^>]*)> (?:<([^>]*)>|"((?:[^"\\]|\\.)*)"(?:@([A-Za-z0-9-]+)|\^\^<([^>]*)>)?|(_:\S+))'
                  r'(?: <([^>]*)>)? \.$')
ESCAPE = re.compile(r"\\(u[0-9A-Fa-f]{4}|U[0-9A-Fa-f]{8}|.)")
ESCAPED = {"t": "\t", "n": "\n", "r": "\r", "b": "\b", "f": "\f"}


def unescape(text):
    def one(match):
        code = match.group(1)
        return chr(int(code[1:], 16)) if code[0] in "uU" else ESCAPED.get(code, code)
    return ESCAPE.sub(one, text) if "\\" in text else text


def read_lines(path):
    """(subject, predicate, object, graph) of each line; raises ValueError for what is no N-Triples or N-Quads."""
    with open(path, encoding="utf-8", newline="\n") as lines:
        for number, line in enumerate(lines, 1):
            match = LINE.match(line.rstrip("\n"))
            if not match:
                raise ValueError("%s:%d is no triple: %r" % (path, number, line[:200]))
            s, p, iri, text, language, datatype, blank, graph = match.groups()
            if text is None:
                yield s, p, iri if iri is not None else blank, graph
            else:
                yield s, p, (unescape(text), (language or "").lower(), datatype or ""), graph


class Store:
    def __init__(self, triples):
        self.triples = set(triples)
        self.about = collections.defaultdict(lambda: collections.defaultdict(list))
        self.by = collections.defaultdict(list)
        for s, p, o in self.triples:
            self.about[s][p].append(o)
            self.by[p].append((s, o))

    def of(self, s, p):
        return self.about[s].get(p, []) if s in self.about else []

    def typed(self, cls):
        return [s for s, o in self.by[TYPE] if o == cls]


class Models:
    """The published RDFS: superclasses, superproperties, domains and ranges."""

    def __init__(self, folder):
        self.declared = set()
        self.above = collections.defaultdict(set)
        self.wider = collections.defaultdict(set)
        self.domain = collections.defaultdict(set)
        self.range = collections.defaultdict(set)
        tables = {"subClassOf": self.above, "subPropertyOf": self.wider, "domain": self.domain, "range": self.range}
        for model in MODELS:
            self._read(os.path.join(folder, model), tables)
        self._classes = {}

    def _read(self, path, tables):
        """RDF/XML as these files are written: one element for each class or property, its resources named."""
        root = xml.etree.ElementTree.parse(path).getroot()
        base = root.get("{http://www.w3.org/XML/1998/namespace}base", "")
        full = lambda iri: iri if ":" in iri else base + iri
        for thing in root:
            name = thing.get("{%s}about" % RDF) or thing.get("{%s}ID" % RDF)
            if not name:
                continue
            if thing.tag != "{%s}Description" % RDF:
                self.declared.add(full(name))
            for part in thing:
                local = part.tag.rsplit("}", 1)[-1]
                resource = part.get("{%s}resource" % RDF)
                if part.tag == "{%s}type" % RDF:
                    self.declared.add(full(name))
                elif local in tables and resource:
                    tables[local][full(name)].add(full(resource))

    def classes(self, cls):
        if cls not in self._classes:
            self._classes[cls] = closure({cls}, lambda one: self.above.get(one, ()))
        return self._classes[cls]


def closure(start, step):
    reached, waiting = set(start), list(start)
    while waiting:
        for node in step(waiting.pop()):
            if node not in reached:
                reached.add(node)
                waiting.append(node)
    return reached


def in_a_loop(edges):
    """Nodes from which some path along the edges leads back to them."""
    after = collections.defaultdict(set)
    for s, o in edges:
        after[s].add(o)
    looped, state = set(), {}
    for root in list(after):
        if root in state:
            continue
        path, state[root] = [(root, iter(after[root]))], 1
        while path:
            node, rest = path[-1]
            for following in rest:
                if state.get(following) == 1:
                    looped.add(following)
                elif following not in state:
                    state[following] = 1
                    path.append((following, iter(after.get(following, ()))))
                    break
            else:
                state[node] = 2
                path.pop()
    return looped
