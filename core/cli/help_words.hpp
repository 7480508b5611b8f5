// What 'lathbook --help' says before and behind the list of commands.
#pragma once

namespace lathbook::cli {

inline constexpr const char* kAbout =
    "The archive of a house that is being taken apart and put back: what each piece is, what is written\n"
    "on it, what lay over what, and on whose word. Every fact is a statement that cites its source.";
inline constexpr const char* kFooter =
    "A first day:\n"
    "  lathbook begin house --name \"Our house\"           make an archive in the folder house\n"
    "  cd house\n"
    "  lathbook new agent ME --name \"A. Person\"          who you are\n"
    "  lathbook take-in ../sheets                        take in a surveyor's sheets\n"
    "  lathbook show N-203                               one thing and all that is said of it\n"
    "  lathbook history 201                              a room's phases, each date with its notes\n"
    "Codes, dates and words are typed as people write them: 'about 1890', 'late 1920s', '12 June 1924'.\n"
    "'lathbook help COMMAND' explains one command.\n"
    "Exit codes: 0 done, 1 faults found, 2 wrong use, 3 not found, 4 bad input, 5 damaged, 6 denied,\n"
    "7 from a newer program, 8 the disk refused. Guide: docs/commands.md";

}  // namespace lathbook::cli
