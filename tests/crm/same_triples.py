#!/usr/bin/python3
"""Whether files hold the same triples. Usage: same_triples.py OURS.nt OTHER.nt ... [--turtle OURS.ttl]

Turtle is read with rdflib. Prints some of what differs; exit code 0 when nothing does.
"""
import sys

from rdf_store import read_lines


def by_rdflib(path):
    import rdflib
    rdflib.NORMALIZE_LITERALS = False
    graph = rdflib.Graph()
    graph.parse(path, format="turtle")
    for s, p, o in graph:
        literal = isinstance(o, rdflib.Literal)
        yield str(s), str(p), (str(o), (o.language or "").lower(), str(o.datatype or "")) if literal else str(o)


def main(arguments):
    turtle = arguments.index("--turtle") if "--turtle" in arguments else len(arguments)
    first = set(line[:3] for line in read_lines(arguments[0]))
    others = [(path, set(line[:3] for line in read_lines(path))) for path in arguments[1:turtle]]
    others += [(path, set(by_rdflib(path))) for path in arguments[turtle + 1:]]
    worst = 0 if first else 1
    for path, triples in others:
        for what, odd in (("only here", first - triples), ("only there", triples - first)):
            for triple in sorted(odd, key=str)[:5]:
                print("%s, %s of %d: %r" % (path, what, len(odd), triple))
                worst = 1
    print("%d triples" % len(first))
    return worst


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
