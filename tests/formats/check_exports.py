#!/usr/bin/python3
"""Checks exports against published schemas and the written rules of their standards; one process for many files.

Usage: check_exports.py STANDARDS KIND=PATH ...   ('-' for STANDARDS when they are not at hand)
Kinds: csl, bibtex, repository, lido-events, iiif (a folder), csvw (a folder).
Prints one line a fault, 'check NAME: PATH: what', and ends with 1 when there was any.
"""
import csv
import io
import json
import os
import re
import sys
import xml.etree.ElementTree as tree

faults = []


def fault(check, path, what):
    faults.append('check %s: %s: %s' % (check, path, what))


def load(path):
    with open(path, encoding='utf-8') as file:
        return json.load(file)


# --- CSL-JSON: the schema csl-data.json of the Citation Style Language 1.0.2 -------------------------------------

def check_csl(standards, path):
    items = load(path)
    ids = [item.get('id') for item in items]
    if len(set(ids)) != len(ids):
        fault('csl-id', path, 'two items have one id')
    for item in items:
        for name, value in item.items():
            if value in ('', [], {}) and name != 'custom':
                fault('csl-empty', path, '%s of %s says nothing' % (name, item.get('id')))
    if standards == '-':
        return
    import jsonschema
    schema = load(os.path.join(standards, 'csl', 'csl-data.json'))
    for error in jsonschema.Draft7Validator(schema).iter_errors(items):
        fault('csl-schema', path, '%s at %s' % (error.message[:200], '/'.join(map(str, error.absolute_path))))


# --- BibTeX: entries, fields and braces, read as O. Patashnik, 'BibTeXing', 1988, describes them ------------------

def read_bibtex(text):
    """Entries as (type, key, fields); raises ValueError where a brace or comma is wanting."""
    entries, at = [], 0
    while True:
        # BibTeX passes over words between entries; ours has none but the line of the encoding.
        gap = re.compile(r'(\s|%[^\n]*\n)*').match(text, at)
        at = gap.end()
        if at == len(text):
            return entries
        head = re.compile(r'@([a-z]+)\{([^\s,{}"#%~\\]+)').match(text, at)
        if not head:
            raise ValueError('no entry at %d' % at)
        fields, at = {}, head.end()
        while text[at:at + 1] == ',':
            name = re.compile(r',\s*([a-z]+) = \{').match(text, at)
            if not name:
                raise ValueError('no field in %s' % head.group(2))
            depth, start, at = 1, name.end(), name.end()
            while depth:
                if at >= len(text):
                    raise ValueError('an open brace in %s' % head.group(2))
                depth += {'{': 1, '}': -1}.get(text[at], 0)
                at += 1
            fields[name.group(1)] = text[start:at - 1]
        end = re.compile(r'\s*\}').match(text, at)
        if not end:
            raise ValueError('%s is not closed' % head.group(2))
        at = end.end()
        entries.append((head.group(1), head.group(2), fields))


def from_tex(value):
    for command, char in (('\\textbraceleft{}', '{'), ('\\textbraceright{}', '}'), ('\\textasciitilde{}', '~'),
                          ('\\textasciicircum{}', '^'), ('\\&', '&'), ('\\%', '%'), ('\\$', '$'), ('\\#', '#'),
                          ('\\_', '_'), ('\\textbackslash{}', '\\')):
        value = value.replace(command, char)
    return value


REQUIRED = {'article': ('author', 'title', 'journal', 'year'), 'book': ('author', 'title', 'publisher', 'year'),
            'misc': ()}


def check_bibtex(standards, path):
    with open(path, encoding='utf-8') as file:
        text = file.read()
    try:
        entries = read_bibtex(text)
    except ValueError as error:
        return fault('bibtex-form', path, str(error))
    keys = [key for _, key, _ in entries]
    if len(set(keys)) != len(keys):
        fault('bibtex-key', path, 'two entries have one key')
    for kind, key, fields in entries:
        for name in REQUIRED.get(kind, ('no such type',)):
            if name not in fields:
                fault('bibtex-required', path, '@%s %s lacks %s' % (kind, key, name))
        for name, value in fields.items():
            if name not in ('url', 'rights', 'identifier') and re.search(r'(?<!\\)[&%$#_]', value):
                fault('bibtex-special', path, '%s of %s has a bare special character' % (name, key))


# --- OAI Static Repository: Lagoze et al., specification of 23 April 2004, section 3 -----------------------------

OAI = '{http://www.openarchives.org/OAI/2.0/}'
STATIC = '{http://www.openarchives.org/OAI/2.0/static-repository}'
DC = '{http://www.openarchives.org/OAI/2.0/oai_dc/}dc'


def check_repository(standards, path):
    root = tree.parse(path).getroot()
    if root.tag != STATIC + 'Repository' or [child.tag for child in root] != [
            STATIC + 'Identify', STATIC + 'ListMetadataFormats', STATIC + 'ListRecords']:
        return fault('oai-form', path, 'the parts are not Identify, ListMetadataFormats, ListRecords')
    head = root[0]
    order = [child.tag for child in head]
    wanted = [OAI + name for name in ('repositoryName', 'baseURL', 'protocolVersion', 'adminEmail',
                                      'earliestDatestamp', 'deletedRecord', 'granularity')]
    if [tag for tag in wanted if tag in order] != wanted or sorted(set(order), key=wanted.index) != wanted:
        fault('oai-identify', path, 'Identify lacks a part or has it out of order')
    for email in head.findall(OAI + 'adminEmail'):
        if not re.fullmatch(r'\S+@(\S+\.)+\S+', email.text or ''):
            fault('oai-email', path, 'no e-mail address: %s' % email.text)
    earliest = head.findtext(OAI + 'earliestDatestamp')
    seen = set()
    for record in root[2]:
        identifier = record.findtext(OAI + 'header/' + OAI + 'identifier')
        stamp = record.findtext(OAI + 'header/' + OAI + 'datestamp') or ''
        if identifier in seen:
            fault('oai-identifier', path, 'listed twice: %s' % identifier)
        seen.add(identifier)
        if not re.fullmatch(r'\d{4}-\d\d-\d\d', stamp) or stamp < earliest:
            fault('oai-datestamp', path, 'datestamp %s of %s' % (stamp, identifier))
        body = record.find(OAI + 'metadata')
        if body is None or [child.tag for child in body] != [DC]:
            fault('oai-metadata', path, 'no single oai_dc:dc in %s' % identifier)
    if not seen:
        fault('oai-empty', path, 'no record is listed')


# --- LIDO: what the schema cannot say --------------------------------------------------------------------------

LIDO = '{http://www.lido-schema.org}'


def check_lido(standards, path):
    terms = set()
    if standards != '-':
        with open(os.path.join(standards, 'lido', 'terminology', 'LIDO-Term2CRM.csv'), encoding='utf-8') as file:
            terms = {row[1] for row in csv.reader(file) if len(row) > 1}
    root = tree.parse(path).getroot()
    seen = set()
    for record in root.iter(LIDO + 'lido'):
        identifier = record.findtext(LIDO + 'lidoRecID')
        if identifier in seen:
            fault('lido-id', path, 'two records have the id %s' % identifier)
        seen.add(identifier)
        for event in record.iter(LIDO + 'event'):
            term = event.findtext(LIDO + 'eventType/' + LIDO + 'conceptID')
            if terms and term not in terms:
                fault('lido-event', path, 'the event type %s is not published' % term)
            for date in event.iter(LIDO + 'date'):
                bounds = [date.findtext(LIDO + name) for name in ('earliestDate', 'latestDate')]
                for bound in filter(None, bounds):
                    if not re.fullmatch(r'\d{4}(-\d\d(-\d\d)?)?', bound):
                        fault('lido-date', path, 'no ISO 8601 date: %s' % bound)
                if all(bounds) and bounds[0] > bounds[1]:
                    fault('lido-date', path, '%s is after %s' % tuple(bounds))


# --- IIIF Presentation 3: the specification's rules that its schema does not check --------------------------------

PRESENTATION = 'http://iiif.io/api/presentation/3/context.json'
DESCRIPTIVE = {'id', 'type', 'label', 'metadata', 'summary', 'requiredStatement', 'rights', 'provider', 'thumbnail',
               'navDate', 'homepage', 'seeAlso', 'behavior', 'service', 'rendering'}
#: Properties that the specification gives each kind of resource (section 3, table 'Properties').
ALLOWED = {'Collection': DESCRIPTIVE | {'@context', 'items', 'annotations', 'viewingDirection', 'partOf', 'services'},
           'Manifest': DESCRIPTIVE | {'@context', 'items', 'annotations', 'structures', 'start', 'viewingDirection',
                                      'partOf', 'services'},
           'Canvas': DESCRIPTIVE | {'height', 'width', 'duration', 'items', 'annotations', 'placeholderCanvas',
                                    'accompanyingCanvas', 'partOf'},
           'AnnotationPage': DESCRIPTIVE | {'items', 'partOf'},
           'Annotation': DESCRIPTIVE | {'motivation', 'body', 'target', 'timeMode', 'partOf'},
           'Agent': {'id', 'type', 'label', 'homepage', 'logo', 'seeAlso'},
           'Image': DESCRIPTIVE | {'format', 'height', 'width', 'annotations'},
           'TextualBody': {'id', 'type', 'value', 'format', 'language'},
           'SpecificResource': {'id', 'type', 'source', 'selector'}}


def check_properties(path, thing):
    """Known properties only, language maps everywhere, arrays where several may stand."""
    if isinstance(thing, list):
        for one in thing:
            check_properties(path, one)
        return
    if not isinstance(thing, dict):
        return
    allowed = ALLOWED.get(thing.get('type'))
    if allowed:
        for name in set(thing) - allowed:
            fault('iiif-property', path, '%s on a %s' % (name, thing['type']))
    for name in ('items', 'annotations', 'seeAlso', 'provider', 'metadata', 'homepage', 'rendering', 'thumbnail'):
        if name in thing and not isinstance(thing[name], list):
            fault('iiif-array', path, '%s is no array' % name)
    for pair in thing.get('metadata', []):
        if not (isinstance(pair, dict) and isinstance(pair.get('label'), dict) and isinstance(pair.get('value'), dict)):
            fault('iiif-metadata', path, 'a pair without language maps')
    for name, value in thing.items():
        if name not in ('label', 'summary', 'metadata'):
            check_properties(path, value)


def image_files(folder):
    return {os.path.join('media', name) for name in os.listdir(os.path.join(folder, 'media'))}


def check_labels(path, where, thing):
    label = thing.get('label')
    good = isinstance(label, dict) and label and all(
        (key == 'none' or re.fullmatch(r'[A-Za-z]{2,8}(-[A-Za-z0-9]{1,8})*', key)) and isinstance(value, list) and value
        and all(isinstance(one, str) for one in value) for key, value in label.items())
    if not good:
        fault('iiif-label', path, 'no label on %s' % where)


def walk_ids(thing, ids):
    if isinstance(thing, dict):
        if 'id' in thing and thing.get('type') in ('Manifest', 'Canvas', 'AnnotationPage', 'Annotation', 'Collection'):
            ids.append(thing['id'])
        for value in thing.values():
            walk_ids(value, ids)
    elif isinstance(thing, list):
        for value in thing:
            walk_ids(value, ids)


def check_annotation(path, canvas, annotation, painting):
    where = annotation.get('id')
    motivation = annotation.get('motivation')
    if not motivation:
        return fault('iiif-motivation', path, 'none on %s' % where)
    if (motivation == 'painting') != painting:
        fault('iiif-painting', path, 'motivation %s in the wrong list: %s' % (motivation, where))
    target = annotation.get('target', '')
    if painting:
        if target != canvas['id']:
            fault('iiif-target', path, 'paints another canvas: %s' % where)
        return
    if target.split('#')[0] != canvas['id']:
        fault('iiif-target', path, 'is about another canvas: %s' % where)
    region = re.fullmatch(r'xywh=(\d+),(\d+),(\d+),(\d+)', target.partition('#')[2]) if '#' in target else None
    if '#' in target:
        if not region:
            return fault('iiif-region', path, 'no region: %s' % target)
        x, y, w, h = map(int, region.groups())
        if w < 1 or h < 1 or x + w > canvas['width'] or y + h > canvas['height']:
            fault('iiif-region', path, 'outside the canvas: %s' % target)
    for body in annotation.get('body', []):
        if body.get('type') == 'TextualBody' and not (body.get('format') and body.get('language')):
            fault('iiif-body', path, 'words without format and language: %s' % where)
        if body.get('type') == 'SpecificResource' and not re.match(r'https?://', body.get('source', '')):
            fault('iiif-body', path, 'no address of a record: %s' % where)


def check_manifest(path, folder, root):
    manifest = load(path)
    if manifest.get('@context') != PRESENTATION:
        fault('iiif-context', path, 'the context is %s' % manifest.get('@context'))
    check_labels(path, 'the manifest', manifest)
    check_properties(path, manifest)
    for provider in manifest.get('provider', []):
        check_labels(path, 'the provider', provider)
    if not manifest.get('items'):
        fault('iiif-items', path, 'no canvas')
    ids = []
    walk_ids(manifest, ids)
    if len(set(ids)) != len(ids):
        fault('iiif-ids', path, 'an id is used twice')
    painted = []
    for canvas in manifest.get('items', []):
        if '#' in canvas['id'] or not re.match(r'https?://', canvas['id']):
            fault('iiif-canvas', path, 'no id for a canvas: %s' % canvas['id'])
        for side in ('width', 'height'):
            if not isinstance(canvas.get(side), int) or canvas[side] < 1:
                fault('iiif-size', path, 'a canvas without %s' % side)
        rights = canvas.get('rights')
        if rights and not re.match(r'http://(creativecommons\.org|rightsstatements\.org/vocab)/', rights):
            fault('iiif-rights', path, rights)
        if 'navDate' in canvas and not re.fullmatch(r'\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(Z|[+-]\d\d:\d\d)',
                                                    canvas['navDate']):
            fault('iiif-navdate', path, canvas['navDate'])
        for page in canvas.get('items', []):
            for annotation in page['items']:
                check_annotation(path, canvas, annotation, True)
                body = annotation['body']
                file = body['id'][len(root):] if body['id'].startswith(root) else None
                if file is None or not os.path.isfile(os.path.join(folder, file)):
                    fault('iiif-image', path, 'no such file: %s' % body['id'])
                    continue
                painted.append(body['id'])
                if not real_type(os.path.join(folder, file), body['format']):
                    fault('iiif-format', path, '%s is no %s' % (file, body['format']))
                if body['width'] * canvas['height'] != body['height'] * canvas['width']:
                    fault('iiif-ratio', path, 'canvas and picture differ in shape: %s' % canvas['id'])
        for page in canvas.get('annotations', []):
            for annotation in page['items']:
                check_annotation(path, canvas, annotation, False)
    return manifest


def real_type(path, stated):
    with open(path, 'rb') as file:
        start = file.read(4096)
    signs = {'image/jpeg': b'\xff\xd8\xff', 'image/png': b'\x89PNG', 'image/gif': b'GIF8', 'image/webp': b'RIFF'}
    if stated in signs:
        return start.startswith(signs[stated])
    return stated == 'image/bmp' and start.startswith(b'BM') or stated == 'image/svg+xml' and b'<svg' in start


def check_iiif(standards, folder):
    collection_path = os.path.join(folder, 'collection.json')
    collection = load(collection_path)
    root = collection['id'][:-len('collection.json')]
    check_properties(collection_path, collection)
    listed = [item['id'] for item in collection['items']]
    if len(set(listed)) != len(listed) or not listed:
        fault('iiif-collection', collection_path, 'a manifest is listed twice, or none')
    files = {root + 'manifests/' + name for name in os.listdir(os.path.join(folder, 'manifests'))}
    if files != set(listed):
        fault('iiif-collection', collection_path, 'the list and the folder differ')
    documents = [(collection_path, collection)]
    for name in sorted(os.listdir(os.path.join(folder, 'manifests'))):
        path = os.path.join(folder, 'manifests', name)
        manifest = check_manifest(path, folder, root)
        documents.append((path, manifest))
        if manifest['id'] != root + 'manifests/' + name:
            fault('iiif-id', path, 'the id is not the address of the file')
    check_web_annotations(standards, documents)


def check_web_annotations(standards, documents):
    """The assertions of W3C's own tests for 'Web Annotation Data Model' (2017) that say MUST."""
    folder = os.path.join(standards, 'iiif', 'web-annotation-json-schema')
    if standards == '-' or not os.path.isdir(folder):
        return
    import jsonschema
    musts = load(os.path.join(folder, 'annotations', 'annotationMusts.test'))
    store = {}
    for name in os.listdir(os.path.join(folder, 'definitions')):
        definition = load(os.path.join(folder, 'definitions', name))
        if 'id' in definition:
            store[definition['id']] = definition
    wanted = []

    def gather(thing):
        if isinstance(thing, str) and thing.endswith('.json'):
            wanted.append(thing)
        elif isinstance(thing, dict):
            for value in thing.values():
                gather(value)
        elif isinstance(thing, list):
            for value in thing:
                gather(value)

    gather(musts.get('assertions', musts))
    ran = 0
    for name in wanted:
        path = os.path.join(folder, name)
        if not os.path.isfile(path):
            continue
        assertion = load(path)
        if assertion.get('expectedResult', 'valid') != 'valid' or 'Context' in os.path.basename(path):
            continue  # the context stands once, on the manifest
        try:
            resolver = jsonschema.RefResolver('', assertion, store=store)
            validator = jsonschema.Draft4Validator(assertion, resolver=resolver)
            for where, document in documents:
                for canvas in document.get('items', []):
                    for page in canvas.get('items', []) + canvas.get('annotations', []):
                        for annotation in page.get('items', []) if page.get('type') == 'AnnotationPage' else []:
                            ran += 1
                            if not validator.is_valid(annotation):
                                fault('annotation', where, '%s: %s' % (os.path.basename(path), annotation['id']))
        except jsonschema.exceptions.RefResolutionError:
            continue
    if os.environ.get('LATHBOOK_TELL'):
        print('ran %d assertions' % ran, file=sys.stderr)


# --- CSV on the Web: W3C, 'Metadata Vocabulary for Tabular Data' and 'Model for Tabular Data', 2015 ---------------

DATATYPES = {
    'string': r'[\s\S]*', 'anyURI': r'\S*', 'integer': r'[+-]?\d+', 'decimal': r'[+-]?(\d+(\.\d*)?|\.\d+)',
    'date': r'-?\d{4,}-\d\d-\d\d', 'dateTimeStamp': r'\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)'}


def check_csvw(standards, folder):
    about = os.path.join(folder, 'csv-metadata.json')
    metadata = load(about)
    if metadata.get('@context') != 'http://www.w3.org/ns/csvw':
        fault('csvw-context', about, str(metadata.get('@context')))
    sheets, keys = {}, {}
    for table in metadata['tables']:
        path = os.path.join(folder, table['url'])
        with open(path, encoding='utf-8', newline='') as file:
            text = file.read()
        if text.startswith('\ufeff'):
            fault('csvw-bom', path, 'a byte order mark')
        if '\r\n' not in text or re.search(r'(?<!\r)\n', re.sub(r'"(?:[^"]|"")*"', '', text)):
            fault('csvw-lines', path, 'rows do not end with CR LF')
        rows = list(csv.reader(io.StringIO(text, newline=''), strict=True))
        check_table(path, table, rows)
        sheets[table['url']] = rows
        columns = [column['name'] for column in table['tableSchema']['columns']]
        keys[table['url']] = {name: {row[at] for row in rows[1:]} for at, name in enumerate(columns)}
    listed = {table['url'] for table in metadata['tables']}
    there = {name for name in os.listdir(folder) if name.endswith('.csv')}
    if listed != there:
        fault('csvw-tables', about, 'described and there are not the same: %s' % sorted(listed ^ there))
    for table in metadata['tables']:
        for key in table['tableSchema'].get('foreignKeys', []):
            target = keys.get(key['reference']['resource'], {}).get(key['reference']['columnReference'])
            if target is None:
                fault('csvw-foreign', about, 'no such table or column: %s' % key)
                continue
            for value in keys[table['url']][key['columnReference']] - {''}:
                if value not in target:
                    fault('csvw-foreign', os.path.join(folder, table['url']), 'no row for %s' % value)


def check_table(path, table, rows):
    columns = table['tableSchema']['columns']
    if [column['titles'] for column in columns] != rows[0]:
        fault('csvw-header', path, 'the header is not as described')
    names = [column['name'] for column in columns]
    if len(set(names)) != len(names) or not all(re.fullmatch(r'[a-z0-9_]+', name) for name in names):
        fault('csvw-names', path, 'names are not unique or not plain')
    key = names.index(table['tableSchema']['primaryKey'])
    seen = set()
    for number, row in enumerate(rows[1:], 2):
        if len(row) != len(columns):
            fault('csvw-width', path, 'row %d has %d cells' % (number, len(row)))
            continue
        if row[key] in seen or not row[key]:
            fault('csvw-key', path, 'row %d has no key of its own' % number)
        seen.add(row[key])
        for column, cell in zip(columns, row):
            check_cell(path, number, column, cell)


def check_cell(path, number, column, cell):
    if re.match(r'[=+\-@\t\r]', cell) and not re.fullmatch(r'[+-]?\d+(\.\d+)?', cell):
        fault('csvw-formula', path, 'row %d, %s would be computed: %s' % (number, column['titles'], cell[:40]))
    if not cell:
        if column.get('required'):
            fault('csvw-required', path, 'row %d, %s' % (number, column['titles']))
        return
    datatype = column['datatype']
    base = datatype if isinstance(datatype, str) else datatype['base']
    pattern = DATATYPES[base] if isinstance(datatype, str) else datatype['format']
    # A guard is taken off before the value is read.
    plain = cell[1:] if re.match(r"'[=+\-@\t\r' \n]", cell) else cell
    for value in plain.split(column['separator']) if 'separator' in column else [plain]:
        if not re.fullmatch(pattern, value):
            fault('csvw-datatype', path, 'row %d, %s is no %s: %s' % (number, column['titles'], base, value[:60]))


# --- Words that must come through ------------------------------------------------------------------------------

def check_words(standards, listing):
    """A JSON file: {"words": [...], "files": [[kind, path], ...]}: every word must be found in every file."""
    asked = load(listing)
    for kind, path in asked['files']:
        if kind == 'csl' or kind == 'json':
            text = json.dumps(load(path), ensure_ascii=False)
            held = [json.dumps(word, ensure_ascii=False)[1:-1] for word in asked['words']]
        elif kind == 'bibtex':
            text = from_tex(open(path, encoding='utf-8').read())
            held = [word.replace('\n', ' ').replace('\t', ' ') for word in asked['words']]
        elif kind == 'csv':
            with open(path, encoding='utf-8', newline='') as file:
                text = '\x00'.join(cell for row in csv.reader(file, strict=True) for cell in row)
            held = asked['words']
        else:
            text = '\x00'.join(tree.parse(path).getroot().itertext())
            held = asked['words']
        for word, form in zip(asked['words'], held):
            if form not in text:
                fault('words', path, 'lost: %r' % word[:60])


CHECKS = {'csl': check_csl, 'bibtex': check_bibtex, 'repository': check_repository, 'lido': check_lido,
          'iiif': check_iiif, 'csvw': check_csvw, 'words': check_words}


def main():
    csv.field_size_limit(1 << 26)
    standards = sys.argv[1]
    for argument in sys.argv[2:]:
        kind, _, path = argument.partition('=')
        try:
            CHECKS[kind](standards, path)
        except (KeyError, ValueError, TypeError, OSError, csv.Error, tree.ParseError) as error:
            fault(kind + '-unreadable', path, '%s: %s' % (type(error).__name__, error))
    for one in faults:
        print(one)
    sys.exit(1 if faults else 0)


if __name__ == '__main__':
    main()
