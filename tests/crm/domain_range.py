#!/usr/bin/python3
"""Checks an N-Triples file against the published RDFS of the CIDOC CRM family.

Usage: domain_range.py EXPORT.nt FOLDER_WITH_RDFS. Prints one line for each fault; exit code 0 when there is none.
The checks and their numbers are those of docs/crm.md, 'What is checked'.
"""
import collections
import os
import re
import sys

import rdflib
from rdflib import RDF, RDFS, URIRef

CRM = "http://www.cidoc-crm.org/"
MODELS = ["cidoc_crm_v7.1.3.rdf", "CRMarchaeo_v2.1.1.rdf", "CRMba_v1.4.rdf", "CRMinf_v1.2.1.rdf", "CRMsci_v3.2.rdf",
          "CRMdig_v5.0.rdf"]
DATE = re.compile(r"-?([1-9]\d{3,}|0\d{3})-(0[1-9]|1[0-2])-(0[1-9]|[12]\d|3[01])T([01]\d|2[0-3]):[0-5]\d:[0-5]\d"
                  r"(Z|[+-](0\d|1[0-4]):[0-5]\d)$")


def name(part):
    return URIRef(CRM + part)


def closure(graph, start, predicate):
    return set(graph.transitive_objects(start, predicate))


def main(export, folder):
    onto = rdflib.Graph()
    for model in MODELS:
        onto.parse(os.path.join(folder, model), format="xml")
    data = rdflib.Graph()
    data.parse(export, format="nt")
    faults = []

    def fault(number, text, *nodes):
        faults.append("check %s: %s %s" % (number, text, " ".join(str(node) for node in nodes)))

    # 1. Every class and property of the family is declared. A published name that has a declaration only as
    # another model's superclass does not count.
    for thing in set(data.predicates()) | set(data.objects(None, RDF.type)) | set(data.objects(None, RDFS.subPropertyOf)):
        if "cidoc-crm.org" in str(thing) and (thing, RDF.type, None) not in onto:
            fault(1, "is declared nowhere:", thing)

    # 2. Domain and range, through superclasses and through the file's own sub-properties.
    supers = {}
    classes = collections.defaultdict(set)
    for node, cls in data.subject_objects(RDF.type):
        if cls not in supers:
            supers[cls] = closure(onto, cls, RDFS.subClassOf)
        classes[node] |= supers[cls]
    both = onto + data
    ends_of = {}

    def rules(predicate):
        """(property, domains, ranges) of the property and all that are wider."""
        if predicate not in ends_of:
            ends_of[predicate] = [(one, set(onto.objects(one, RDFS.domain)), set(onto.objects(one, RDFS.range)))
                                  for one in closure(both, predicate, RDFS.subPropertyOf)]
        return ends_of[predicate]

    def holds(subject, predicate, obj, number):
        for one, domains, ranges in rules(predicate):
            for domain in domains - classes[subject]:
                fault(number, "domain:", subject, one, domain)
            for range_ in ranges:
                literal = isinstance(obj, rdflib.Literal)
                if literal != (range_ == RDFS.Literal) or (not literal and range_ not in classes[obj]):
                    fault(number, "range:", subject, one, obj, range_)

    for subject, predicate, obj in data:
        if predicate not in (RDF.type, RDFS.label, RDFS.comment, RDFS.subPropertyOf):
            holds(subject, predicate, obj, 2)

    # 3. Nothing is two things that the standard's text keeps apart.
    cidoc = "cidoc-crm/"
    for node, kinds in classes.items():
        for a, b in (("E2_Temporal_Entity", "E77_Persistent_Item"), ("E18_Physical_Thing", "E28_Conceptual_Object")):
            if name(cidoc + a) in kinds and name(cidoc + b) in kinds:
                fault(3, a + " and " + b + ":", node)

    # 4. Every node has a type, and there are no blank nodes (5).
    for subject, predicate, obj in data:
        for node in (subject, obj):
            if isinstance(node, rdflib.BNode):
                fault(5, "a blank node:", subject, predicate)
        if predicate in (RDF.type, RDFS.subPropertyOf):
            continue
        for node in (subject, obj):
            if isinstance(node, URIRef) and not classes[node]:
                fault(4, "has no type:", node)

    # 5. One identifier of a kind each: a record is the subject of at most one P1 to an E42.
    p1 = name(cidoc + "P1_is_identified_by")
    for subject in set(data.subjects(p1, None)):
        codes = [o for o in data.objects(subject, p1) if name(cidoc + "E42_Identifier") in classes[o]]
        if len(codes) > 1:
            fault(5, "has several identifiers:", subject)

    # 6. Dates: lexical form, at most one bound of a kind, in order.
    bounds = [name(cidoc + p) for p in ("P82a_begin_of_the_begin", "P81a_end_of_the_begin", "P81b_begin_of_the_end",
                                        "P82b_end_of_the_end")]
    for literal in set(data.objects()):
        if isinstance(literal, rdflib.Literal) and literal.datatype == rdflib.XSD.dateTime:
            if not DATE.match(str(literal)):
                fault(6, "is no full date and time:", literal)
    for span in set(data.subjects(RDF.type, name(cidoc + "E52_Time-Span"))):
        found = [[str(o) for o in data.objects(span, p)] for p in bounds]
        if any(len(values) > 1 for values in found):
            fault(6, "has two bounds of one kind:", span)
        order = [values[0] for values in found if values]
        if order != sorted(order) and not any(one.startswith("-") for one in order):
            fault(6, "bounds out of order:", span, order)

    # 8. Events have what makes them events.
    needs = {"E79_Part_Addition": ["P110_augmented", "P111_added"], "E80_Part_Removal": ["P112_diminished", "P113_removed"],
             "E9_Move": ["P25_moved", "P26_moved_to"], "E11_Modification": ["P31_has_modified"],
             "E12_Production": ["P108_has_produced"], "E14_Condition_Assessment": ["P34_concerned", "P35_has_identified"],
             "E54_Dimension": ["P90_has_value", "P91_has_unit"], "E3_Condition_State": ["P2_has_type"]}
    for cls, properties in needs.items():
        for node in set(data.subjects(RDF.type, name(cidoc + cls))):
            for needed in properties:
                if (node, name(cidoc + needed), None) not in data:
                    fault(8 if cls not in ("E14_Condition_Assessment", "E54_Dimension", "E3_Condition_State") else 14,
                          cls + " without " + needed + ":", node)

    # 7. Every appellation says something, once.
    for cls in ("E33_E41_Linguistic_Appellation", "E42_Identifier", "E35_Title"):
        for node in set(data.subjects(RDF.type, name(cidoc + cls))):
            if len(list(data.objects(node, name(cidoc + "P190_has_symbolic_content")))) != 1:
                fault(7, "has not one P190:", node)

    # 10. Relations: both ways where they are mutual, and the own properties declared.
    own = [p for p in data.subjects(RDFS.subPropertyOf, name("extensions/crmarchaeo/AP11_has_physical_relation_to"))]
    if not own:
        fault(10, "no own sub-property of AP11 is declared")
    for p in own:
        if str(p).endswith("bonded-with"):
            for subject, obj in data.subject_objects(p):
                if (obj, p, subject) not in data:
                    fault(10, "not written both ways:", subject, p, obj)

    # 12. No loops of parts and places.
    for p in (cidoc + "P46i_forms_part_of", "extensions/crmba/BP1_is_section_of", cidoc + "P89_falls_within"):
        for start in set(data.subjects(name(p), None)):
            reached, waiting = set(), list(data.objects(start, name(p)))
            while waiting:
                node = waiting.pop()
                if node not in reached:
                    reached.add(node)
                    waiting.extend(data.objects(node, name(p)))
            if start in reached:
                fault(12, "is within itself:", start, p)

    # 15. Every E55 has a label.
    for node, kinds in classes.items():
        if name(cidoc + "E55_Type") in kinds and (node, RDFS.label, None) not in data:
            fault(15, "an E55 without label:", node)

    # Claims: one J30, J31, J32 each, fitting the property; a belief of the scale, concluded by something.
    inf = "extensions/crminf/"
    j30, j31, j32 = (name(inf + p) for p in ("J30_has_domain", "J31_has_range", "J32_has_property_type"))
    for claim in set(data.subjects(RDF.type, name(inf + "I17_One-Proposition_Set"))):
        ends = [list(data.objects(claim, p)) for p in (j30, j31, j32)]
        if [len(one) for one in ends] != [1, 1, 1]:
            fault("claim 1", "not one of J30, J31, J32:", claim)
        elif isinstance(ends[1][0], rdflib.Literal):
            fault("claim 4", "J31 is a literal:", claim)
        else:
            holds(ends[0][0], ends[2][0], ends[1][0], "claim 5")
    concluded = collections.Counter(data.objects(None, name(inf + "J2_concluded_that")))
    for belief in set(data.subjects(RDF.type, name(inf + "I2_Belief"))):
        if len(list(data.objects(belief, name(inf + "J4_that")))) != 1 or concluded[belief] == 0:
            fault("claim 2", "not one J4, or concluded by nothing:", belief)
        scale = [str(o) for o in data.objects(belief, name(inf + "J5_holds_to_be"))]
        if len(scale) != 1 or scale[0] not in ("certain", "probable", "possible", "conjecture"):
            fault("claim 2", "confidence:", belief, scale)
    for act, needed in (("I7_Belief_Adoption", "J7_is_based_on_evidence_from"), ("I5_Inference_Making", "J1_used_as_premise")):
        for node in set(data.subjects(RDF.type, name(inf + act))):
            if (node, name(inf + needed), None) not in data:
                fault("claim 3", act + " without " + needed + ":", node)
    for premise in set(data.objects(None, name(inf + "J1_used_as_premise"))):
        if (premise, RDF.type, name(inf + "I2_Belief")) not in data:
            fault("claim 3", "a premise that is no belief of this file:", premise)

    for line in sorted(faults):
        print(line)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1], sys.argv[2]))
