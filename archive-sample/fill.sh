#!/bin/sh
# Fills the sheets that repeat themselves: the tiles of the niche, one row each, and the paint layers of the
# Dining Room. The result is kept with the other sheets; run this again only after changing it.
# Everything here is invented, like the house. Needs a POSIX shell and awk.
set -eu
sheets=$(cd "$(dirname "$0")" && pwd)/sheets

# Fields of tiles, numbered as bagged: from the top course down, left to right as seen from the room (the Hall: from
# the north end; the hearth: from its back). Rows are counted from the bottom. The table below says what is not as usual of a tile: its state, its
# crate, its condition in words, its class of condition when not sound, what the tap test said of its bed.
awk -F ' *[|] *' '
function csv(text) { gsub(/"/, "\"\"", text); return text ~ /[",]/ ? "\"" text "\"" : text }
{ state[$1] = $2; crate[$1] = $3; word[$1] = $4; how[$1] = $5; sound[$1] = $6 }
END {
  print "code,name,piece-of,position,piece-state,in-container,condition,piece-condition,bed-sound,retained-as-evidence,source,locator,by,said-on,class,confidence,recorder"
  for (n = 1; n <= 84; n++) {
    tile("N-203", "Sea-green tile", n, 12, 7, n <= 24 ? "in container" : "in place", n <= 24 ? (n <= 12 ? "K-01" : "K-02") : "")
  }
  for (n = 1; n <= 84; n++) {
    tile("N-204", "Ivory tile", n, 12, 7, n <= 60 ? "in container" : "in place", n <= 60 ? "K-0" (3 + int((n - 1) / 20)) : "")
  }
  for (n = 1; n <= 26; n++) {
    tile("N-202", "Slip tile", n, 26, 1, "in place", "")
  }
  for (n = 1; n <= 56; n++) {
    tile("E-101.01", "Octagon", n, 8, 7, "in place", "")
  }
  for (n = 1; n <= 27; n++) {
    tile("E-105.05", "Hearth tile", n, 9, 3, "in place", "")
  }
}
function tile(field, what, n, columns, rows, usual, box,    code, row, column, key, now, where, seen, on, spot, leaf, by) {
  code = sprintf("%s.%02d", field, n); key = code
  row = rows - int((n - 1) / columns); column = (n - 1) % columns + 1
  now = (key in state && state[key] != "") ? state[key] : usual
  where = (key in state) ? crate[key] : box
  if (now != "in container") where = ""
  on = field == "N-204" ? "2024-03-30" : field == "N-203" ? "2024-05-18" : field == "N-202" ? "2024-05-11" : field == "E-105.05" ? "2023-08-08" : "2023-07-04"
  spot = field == "N-202" ? sprintf("tile %d of the slip, from the left foot round the arch", n) \
       : field == "E-101.01" ? sprintf("row %d from the front door, column %d from the west", 8 - row, column) \
       : field == "E-105.05" ? sprintf("row %d from the front edge, column %d from the left", row, column) \
       : sprintf("course %d from the bottom, column %d from the left", row, column)
  seen = (key in state) && word[key] != "" ? word[key] : (n * 7 + length(field)) % 11 == 0 ? "Crazed, otherwise sound" : "Sound"
  whole = now ~ /^missing/ ? "" : (key in state) && how[key] != "" ? how[key] : "sound"
  if (whole != "") whole = whole ~ /;/ ? substr(whole, 1, index(whole, ";") - 1) " {on=" on substr(whole, index(whole, ";")) "}" : whole " {on=" on "}"
  tapped = (key in state) && sound[key] != "" ? sound[key] " {on=" on "}" : ""
  kept = field == "N-204" && now == "in place" ? "The last undisturbed part of the ivory field and its cement bed." : ""
  leaf = field ~ /^E/ ? "S-46" : field == "N-204" ? "S-47" : field == "N-202" ? "S-56" : "S-60"
  by = field ~ /^E/ ? "A-21" : "A-20"
  printf "%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,%s,physical,certain,%s\n", code, csv(what " " n), field, \
    csv(spot " {field=" field "; row=" row "; column=" column "; rotation=" (key == "N-203.61" ? 90 : 0) "}"), \
    now " {on=" on "}", where == "" ? "" : where " {on=" on "}", csv(seen " {on=" on "}"), whole, tapped, kept, leaf, \
    field == "E-101.01" ? "p. 22" : field == "E-105.05" ? "p. 58" : field == "N-204" ? "p. 31" : field == "N-202" ? "slip; tile " n " from the left foot" : "tile " n, by, on, by
}
' > "$sheets/pieces-tile-fields.csv" <<'TABLE'
N-203.03 | in container | K-01 | Lower left corner chipped, old break, glazed over with soot | chipped
N-203.09 | in container | K-01 | Hair crack from edge to edge, holding | cracked
N-203.14 | on bench | | Sound; back moulded, letters half under mortar until cleaned
N-203.15 | in container | K-02 | Corner lost when lifted; the corner is piece N-203.15a | chipped
N-203.16 | in container | K-02 | Drilled through at its right side, rust stain below
N-203.21 | in container | K-02 | Drilled through at its left side, rust stain below
N-203.22 | away | | Sound; with the laboratory for its glaze
N-203.41 | missing at survey | | Bed shows its comb marks; no tile
N-203.42 | missing at survey | | Bed shows its comb marks; no tile
N-203.46 | in place | | Rattles when tapped | | rattling
N-203.47 | in place | | Not of the first laying: bluer glaze, thinner, grey bed
N-203.52 | in place | | Drilled through at its right side, rust stain below
N-203.54 | in place | | Hollow when tapped | | hollow
N-203.57 | in place | | Drilled through at its left side, rust stain below
N-203.58 | discarded | | In splinters; swept up before anyone was asked, and recorded as discarded on the word of the site book | fragments only
N-203.61 | in place | | Laid a quarter turn round: the pooled corner is at the lower left
N-204.03 | in container | K-03 | Back keyed with squares, no mark
N-204.11 | in container | K-03 | Broken in two when lifted, both halves held | broken; parts=2
N-204.19 | used up as a sample | | Ground for the body analysis, see SA-05
N-204.27 | in container | K-04 | Painted number 27 in pencil on the back, not ours
N-204.44 | not accounted for | | Listed as lifted, in no box on 13 December 2024
N-204.61 | in place | | Left as evidence, the last undisturbed part of the ivory field
N-202.07 | in container | K-02 | Loose when found, joint empty | | moves
N-202.18 | missing at survey | | Joint full of dust
E-101.01.12 | in place | | Worn through the glaze at the foot of the stair | worn
E-101.01.30 | missing at survey | | Filled with cement
E-101.01.44 | in place | | Cracked across | cracked
E-105.05.05 | in place | | Scorched brown under the grate
E-105.05.14 | in place | | Cracked across, cement in the crack | cracked
E-105.05.19 | missing at survey | | A piece of slate is laid in its place
TABLE

# The paint of the Dining Room: coats as numbered on the dado, then the elements with the coats found on each, from
# the wood outward. A coat laps over the one below it; that was read in the stepped scrapes. Pigments are told where a sample
# went to the laboratory, and nowhere else.
awk -F ' *[|] *' -v finishes="$sheets/finishes-dining-room.csv" -v relations="$sheets/relations-dining-room.csv" '
function csv(text) { gsub(/"/, "\"\"", text); return text ~ /[",]/ ? "\"" text "\"" : text }
BEGIN {
  print "code,name,finish-on,layer,layer-role,colour,munsell,material,pigment,source,locator,by,said-on,class,confidence,recorder" > finishes
  print "from,relation,to,contact,source,locator,by,said-on,class,confidence,recorder" > relations
}
$1 == "coat" { role[$2] = $3; colour[$2] = $4; munsell[$2] = $5; stuff[$2] = $6; pigment[$2] = $7 }
$1 == "on" {
  element = $2; spot = $6; analysed = $7 == "analysed"; below = ""
  n = split($5, found, " ")
  for (i = 1; i <= n; i++) {
    k = found[i]
    code = sprintf("F-105.%02d", $4 + i - 1)
    printf "%s,%s,%s,%d,%s,%s,%s,%s,%s,S-48,%s,A-22,2024-06-11,physical,certain,A-22\n", code, csv($3 ", " colour[k]), \
      element, i, role[k], csv(colour[k]), munsell[k], csv(stuff[k]), analysed ? csv(pigment[k]) : "", csv(spot) > finishes
    if (below != "")
      printf "%s,covers,%s,laps over,S-48,%s,A-22,2024-06-11,physical,certain,A-22\n", code, below, csv(spot) > relations
    below = code
  }
}
' <<'TABLE'
coat | 1 | primer | pinkish white | 10R 8/2 | lead paint | lead white, a little red lead
coat | 2 | undercoat | buff graining ground | 7.5YR 6/6 | lead paint | lead white, yellow ochre
coat | 3 | glaze | oak graining, varnished | 7.5YR 4/4 | oil glaze and varnish | burnt umber
coat | 4 | finish coat | dark sea green | 5G 3/4 | oil paint | chrome green, lead white
coat | 5 | undercoat | flat white | N 9/ | oil paint | lead white, zinc white
coat | 6 | finish coat | ivory | 2.5Y 8.5/2 | oil paint | lead white, zinc white, lithopone
coat | 7 | finish coat | cream | 5Y 8.5/4 | alkyd paint | titanium white, rutile
coat | 8 | finish coat | white | N 9/ | alkyd paint | titanium white, rutile
coat | 9 | finish coat | white, roller marks | N 9.5/ | emulsion paint | titanium white, rutile
on | E-105.01 | Dado | 1 | 1 2 3 4 5 6 7 8 | ch. 5, scrape 5A, by the north window | analysed
on | E-105.03 | Hatch casing | 21 | 4 5 6 7 8 | ch. 5, scrape 5C, hatch casing, left leg | analysed
on | E-105.02 | Dado rail | 31 | 1 2 3 4 5 6 7 8 | ch. 5, scrape 5B, rail above 5A | analysed
on | E-105.11 | Hall door | 41 | 1 2 3 4 6 7 8 | ch. 5, scrape 5D, lock rail of the door | analysed
on | E-105.12 | Casing of window 1 | 51 | 4 5 6 7 8 | ch. 5, scrape 5E, right leg, read on site
on | E-105.13 | Casing of window 2 | 61 | 5 6 7 8 | ch. 5, scrape 5F, left leg
on | E-105.14 | Picture rail | 71 | 8 9 | ch. 5, scrape 5G, over the door
on | E-105.15 | Bell board | 81 | 7 | ch. 5, scrape 5H
on | E-105.16 | Plate shelf | 91 | 6 7 8 | ch. 5, scrape 5I, under side
TABLE
