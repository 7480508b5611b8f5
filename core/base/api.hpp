// Marks what liblathbook_core lends to the program and to plugins.
#pragma once
#define LATHBOOK_API __attribute__((visibility("default")))
