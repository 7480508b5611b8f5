#!/usr/bin/python3
"""Asks an export of the sample what a researcher would ask, in SPARQL, and the program the same; the answers must agree.

Usage: questions.py EXPORT.nt BASE PROGRAM ARCHIVE. Prints each question with the number of answers, and both answers where
they differ; exit code 1 then, or when a question has no answer at all (then it proves nothing).
"""
import json
import subprocess
import sys
import time

import rdflib

PREFIXES = """
PREFIX rdfs: <http://www.w3.org/2000/01/rdf-schema#>
PREFIX prov: <http://www.w3.org/ns/prov#>
PREFIX crm: <http://www.cidoc-crm.org/cidoc-crm/>
PREFIX ba: <http://www.cidoc-crm.org/extensions/crmba/>
PREFIX arch: <http://www.cidoc-crm.org/extensions/crmarchaeo/>
PREFIX inf: <http://www.cidoc-crm.org/extensions/crminf/>
"""
# A record by the code on its label, and a claim about it: the words of most questions.
CODED = '?%s crm:P1_is_identified_by [ a crm:E42_Identifier ; crm:P190_has_symbolic_content "%s" ] .'
# (A type as a triple pattern of its own would make rdflib begin with all identifiers that there are.)
NAMED = ('?%s crm:P1_is_identified_by ?%s_id . ?%s_id crm:P190_has_symbolic_content ?%s . '
         'FILTER EXISTS { ?%s_id a crm:E42_Identifier } ')
CLAIM = """?claim inf:J30_has_domain ?subject ; inf:J31_has_range ?value ; inf:J32_has_property_type prop:%s .
           ?belief inf:J4_that ?claim ; inf:J5_holds_to_be ?confidence . FILTER NOT EXISTS { ?belief crm:P2_has_type ?aside }"""


def code_of(thing, as_):
    """The code of a node of the query as another variable of it."""
    return NAMED % (thing, as_, as_, as_, as_)


class Questions:
    def __init__(self, export, base, program, archive):
        self.base, self.call = base, [program, "--archive", archive, "--json"]
        self.graph = rdflib.Graph()
        self.graph.parse(export, format="nt")
        self.known, self.asked, self.wrong = {}, 0, 0

    # What the program says

    def say(self, *words):
        if words not in self.known:
            self.known[words] = json.loads(subprocess.run(self.call + list(words), check=True, capture_output=True).stdout)
        return self.known[words]

    def said(self, code, name, *more):
        return [one for one in self.say("show", code, *more)["statements"] if one["property"] == name]

    def codes(self, prefix, last):
        return ["%s-%02d" % (prefix, number) for number in range(1, last + 1)]

    # What the graph says

    def ask(self, question, text, expected):
        own = "PREFIX prop: <%sproperty/>\nPREFIX type: <%stype/>\nPREFIX st: <%sstatement/>\n" % ((self.base,) * 3)
        start = time.process_time()
        found = self.graph.query(PREFIXES + own + "SELECT DISTINCT " + text)
        answers = sorted(tuple("" if one is None else str(one) for one in row) for row in found)
        expected = sorted(set(tuple(str(one) for one in (row if isinstance(row, tuple) else (row,))) for row in expected))
        self.asked += 1
        print("%2d. %s %d answers, %.1f s" % (self.asked, question, len(answers), time.process_time() - start), flush=True)
        if answers != expected or not answers:
            self.wrong += 1
            print("    the graph:   %s" % [one for one in answers if one not in expected][:8])
            print("    the program: %s" % [one for one in expected if one not in answers][:8])

    def all(self):
        self.counting()
        self.rooms()
        self.marks()
        self.dates()
        self.evidence()
        self.pieces()
        return self.wrong

    def counting(self):
        self.ask("How many records of each kind are there?",
                 """?kind (COUNT(DISTINCT ?r) AS ?n) WHERE { ?r crm:P2_has_type ?t . ?t rdfs:label ?kind .
                    ?c inf:J30_has_domain ?r ; inf:J31_has_range ?t ; inf:J32_has_property_type prop:kind } GROUP BY ?kind""",
                 [(kind, count) for kind, count in self.say("tally")["records"].items()])
        for code in ("N-204", "L-01"):
            self.ask("Which statements were ever made about %s?" % code,
                     "(REPLACE(STR(?c), '.*/statement/', '') AS ?id) WHERE { %s ?c inf:J30_has_domain ?r . "
                     "FILTER(CONTAINS(STR(?c), '/statement/')) }" % (CODED % ("r", code)),
                     [one["id"] for one in self.say("show", code, "--all")["statements"]])

    def rooms(self):
        self.ask("What was the Chart Room called, in any time?",
                 "?name WHERE { %s ?subject crm:P1_is_identified_by ?n . ?n a crm:E33_E41_Linguistic_Appellation ; "
                 "crm:P190_has_symbolic_content ?name }" % (CODED % ("subject", "202")),
                 [one["value"] for one in self.said("202", "name") if one["confidence"] in ("certain", "probable")])
        self.ask("Within which rooms and storeys does the Chart Room lie, up to the building?",
                 "?code WHERE { %s ?subject ba:BP1_is_section_of+ ?outer . %s }" % (CODED % ("subject", "202"), code_of("outer", "code")),
                 self.outer("202"))
        self.ask("What was marked for the Chart Room, and how sure is that?",
                 "?code ?confidence WHERE { %s %s %s }" % (CODED % ("value", "202"), CLAIM % "intended-for", code_of("subject", "code")),
                 [(one["code"], said["confidence"]) for one in self.say("made-for", "202")
                  for said in self.said(one["code"], "intended-for") if said["record"] == "202"])

    def outer(self, code):
        found = []
        while True:
            outer = [one["record"] for one in self.said(code, "within")]
            kinds = [one["value"] for one in self.said(outer[0], "place-type")] if outer else []
            if not outer or kinds[0] not in ("building", "storey", "room"):
                return found
            found.append(outer[0])
            code = outer[0]

    def marks(self):
        marks = [code for code in self.codes("M", 15)]
        self.ask("Which marks name Corrane & Pell as makers, on which piece or element, and on whose word?",
                 "?code ?on ?who WHERE { %s %s %s ?carried inf:J30_has_domain ?subject ; inf:J32_has_property_type prop:mark-on ; "
                 "inf:J31_has_range ?thing . %s ?act inf:J2_concluded_that ?belief ; crm:P14_carried_out_by ?person . "
                 "?person rdfs:label ?name . BIND(REPLACE(?name, '^[^ ]+ ', '') AS ?who) }" %
                 (CODED % ("value", "A-06"), CLAIM % "blank-maker", code_of("subject", "code"), code_of("thing", "on")),
                 [(code, on["record"], said["by"]) for code in marks for said in self.said(code, "blank-maker")
                  if said["record"] == "A-06" for on in self.said(code, "mark-on")])
        self.ask("Which marks were read in more than one way, and how?",
                 "?code ?text WHERE { %s FILTER(STRSTARTS(?code, 'M-')) %s "
                 "?value crm:P190_has_symbolic_content ?text . ?other inf:J30_has_domain ?subject ; "
                 "inf:J32_has_property_type prop:transcription . FILTER(?other != ?claim) "
                 "?b inf:J4_that ?other . FILTER NOT EXISTS { ?b crm:P2_has_type ?gone } }" %
                 (code_of("subject", "code"), CLAIM % "transcription"),
                 [(code, one["value"]) for code in marks if len(self.said(code, "transcription")) > 1
                  for one in self.said(code, "transcription")])
        self.ask("Which labels are written with chalk?",
                 "?code WHERE { ?making crm:P108_has_produced ?label ; crm:P32_used_general_technique type:label-tool.chalk . "
                 "%s }" % code_of("label", "code"), [code for code in self.codes("L", 12) if [one["value"] for one in self.said(code, "label-tool")] == ["chalk"]])

    def dates(self):
        for code in ("E-001.01", "N-203", "N-204", "N-208"):
            self.ask("Not before which day did %s stand?" % code,
                     "?a WHERE { %s ?p crm:P195_was_a_presence_of ?r ; crm:P164_is_temporally_specified_by ?span . "
                     "?span crm:P82a_begin_of_the_begin ?x . BIND(SUBSTR(STR(?x), 1, 10) AS ?a) }" % (CODED % ("r", code)),
                     [self.why(code, "begins")[0]])
        self.ask("Since which day, and until which, did E-001.01 stand for certain?",
                 "?a ?b WHERE { %s ?p crm:P195_was_a_presence_of ?r ; crm:P164_is_temporally_specified_by ?span . "
                 "?span crm:P81a_end_of_the_begin ?x ; crm:P81b_begin_of_the_end ?y . BIND(SUBSTR(STR(?x), 1, 10) AS ?a) "
                 "BIND(SUBSTR(STR(?y), 1, 10) AS ?b) }" % (CODED % ("r", "E-001.01")),
                 [(self.why("E-001.01", "begins")[1], self.why("E-001.01", "ends")[0])])
        self.ask("Which statements bear on how long E-001.01 stood?",
                 "(REPLACE(STR(?c), '.*/statement/', '') AS ?id) WHERE { %s ?p crm:P195_was_a_presence_of ?r . "
                 "?claim inf:J30_has_domain ?p ; inf:J32_has_property_type prop:reckoned-standing . ?belief inf:J4_that ?claim . "
                 "?act inf:J2_concluded_that ?belief ; inf:J1_used_as_premise ?premise . ?premise inf:J4_that ?c }" %
                 (CODED % ("r", "E-001.01")), self.premises("E-001.01"))
        self.ask("What does the ivory tile field cover?",
                 "?code WHERE { %s ?r prop:covers ?under . %s }" % (CODED % ("r", "N-204"), code_of("under", "code")),
                 [one["record"] for one in self.said("N-204", "covers")])
        self.ask("Which geneses must be over before the ivory tile field was laid, at any remove?",
                 "?code WHERE { %s ?late arch:AP7_produced ?r . ?early (crm:P183_ends_before_the_start_of|"
                 "crm:P184_ends_before_or_with_the_end_of)+ ?late ; arch:AP7_produced ?thing . %s }" %
                 (CODED % ("r", "N-204"), code_of("thing", "code")), self.before("N-204"))

    def why(self, code, what):
        item = [one for one in self.say("why", code, what) if one["code"] == code][0][what]
        return tuple(item[end]["day"] if item[end]["known"] else "" for end in ("earliest", "latest"))

    def premises(self, code):
        """Digests of the statements in the program's reasons, which calls them by their short names."""
        names = set(step["statement"] for item in self.say("why", code) for instant in ("begins", "ends")
                    for bound in ("earliest", "latest") if item[instant][bound]["known"]
                    for step in item[instant][bound]["reason"] if step.get("statement"))
        said = self.say("show", code)["statements"]
        others = [c["source"] for one in said for c in one["citations"]] + [one["record"] for one in said if "record" in one]
        digests = {one["statement"]: one["id"] for other in [code] + sorted(set(others))
                   for one in self.say("show", other)["statements"]}
        return [digests.get(name, name) for name in names]

    def before(self, code):
        found, waiting = set(), [code]
        while waiting:
            here = waiting.pop()
            for relation in ("covers", "cuts", "takes-away", "fills", "butts", "fixed-to"):
                for one in self.said(here, relation):
                    if one["confidence"] in ("certain", "probable") and one["record"] not in found:
                        found.add(one["record"])
                        waiting.append(one["record"])
        return found

    def evidence(self):
        self.ask("On which sources, and where in them, do the statements about the ivory tile field rest?",
                 "?source ?place WHERE { %s ?c inf:J30_has_domain ?r . ?b inf:J4_that ?c . ?act inf:J2_concluded_that ?b ; "
                 "inf:J7_is_based_on_evidence_from ?p . ?p crm:P106i_forms_part_of ?s ; crm:P3_has_note ?place . %s }" %
                 (CODED % ("r", "N-204"), code_of("s", "source")),
                 [(c["source"], c["locator"]) for one in self.say("show", "N-204", "--all")["statements"]
                  for c in one["citations"] if c["locator"]])
        self.ask("What is said of the ivory tile field by word of mouth, by whom, and how sure is it?",
                 "?property ?who ?confidence WHERE { %s ?c inf:J30_has_domain ?r ; inf:J32_has_property_type ?p . "
                 "?p rdfs:label ?property . ?b inf:J4_that ?c ; inf:J5_holds_to_be ?confidence . ?act inf:J2_concluded_that ?b ; "
                 "crm:P2_has_type type:evidence.oral ; crm:P14_carried_out_by ?person . ?person rdfs:label ?name . "
                 "BIND(REPLACE(?name, '^[^ ]+ ', '') AS ?who) }" % (CODED % ("r", "N-204")),
                 [(self.label(one["property"]), one["by"], one["confidence"])
                  for one in self.say("show", "N-204")["statements"] if one["class"] == "oral"])
        self.ask("Which statements about the beginning of the ivory tile field disagree?",
                 "(REPLACE(STR(?c), '.*/statement/', '') AS ?id) WHERE { %s ?c inf:J30_has_domain ?r ; "
                 "inf:J32_has_property_type ?p . FILTER(?p IN (prop:standing-by, prop:of-campaign)) }" % (CODED % ("r", "N-204")),
                 [one["id"] for name in ("standing-by", "of-campaign") for one in self.said("N-204", name)])
        tally = self.say("tally")
        self.ask("How many statements were replaced or withdrawn?",
                 "(COUNT(DISTINCT ?c) AS ?n) WHERE { ?b inf:J4_that ?c ; crm:P2_has_type ?t . "
                 "?t rdfs:label 'replaced or withdrawn' }", [tally["statements"] - tally["current"]])

    def label(self, name):
        return [one["label"] for one in self.say("properties") if one["name"] == name][0]

    def pieces(self):
        tiles = ["N-203.%02d" % number for number in range(1, 16)]
        self.ask("Which of the first fifteen sea-green tiles lie in which crate?",
                 "?code ?crate WHERE { ?p crm:P198i_is_held_or_supported_by ?k . %s %s "
                 "FILTER(REGEX(?code, '^N-203[.](0[1-9]|1[0-5])$')) }" % (code_of("p", "code"), code_of("k", "crate")),
                 [(code, one["record"]) for code in tiles for one in self.said(code, "in-container")])
        self.ask("Which of them have been taken out of the field?",
                 "?code WHERE { %s ?e a crm:E80_Part_Removal ; crm:P112_diminished ?field ; crm:P113_removed ?p . "
                 "%s FILTER(REGEX(?code, '^N-203[.](0[1-9]|1[0-5])$')) }" % (CODED % ("field", "N-203"), code_of("p", "code")),
                 [code for code in tiles for one in self.said(code, "piece-state")[-1:] if one["value"] != "in place"])
        self.ask("How large is the iron back-plate?",
                 "?of ?number ?unit WHERE { %s ?r crm:P43_has_dimension ?d . ?d crm:P90_has_value ?number ; "
                 "crm:P2_has_type/rdfs:label ?of ; crm:P91_has_unit/rdfs:label ?unit }" % (CODED % ("r", "N-207")),
                 [(self.detail(one, "of"),) + tuple(one["value"].split(" ")) for one in self.said("N-207", "dimension")] +
                 [("weight",) + tuple(one["value"].split(" ")) for one in self.said("N-207", "weight")])
        self.ask("Which photographs or drawings show the sea-green tile field?",
                 "?code WHERE { %s ?r crm:P138i_has_representation ?s . %s }" % (CODED % ("r", "N-203"), code_of("s", "code")),
                 [one["record"] for name in ("seen-in", "pictured-in", "uncovered-in", "as-built-in")
                  for one in self.said("N-203", name) if self.is_picture(one["record"])])

    def detail(self, statement, name):
        return statement["details"][name]

    def is_picture(self, code):
        return [one["value"] for one in self.said(code, "source-type")][0] in ("photograph", "video", "plan sheet")


if __name__ == "__main__":
    sys.exit(1 if Questions(*sys.argv[1:]).all() else 0)
