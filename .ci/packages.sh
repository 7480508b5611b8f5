# The Debian 12 packages that building and testing need; sourced, never run.
build_packages="g++ cmake ninja-build ccache pkg-config libboost-dev libxml2-dev libsqlite3-dev libicu-dev libssl-dev libcli11-dev libserd-dev libgraphviz-dev libexiv2-dev libqrencode-dev libzip-dev"
test_packages="$build_packages catch2 clang-14 libclang-rt-14-dev clang-tidy-14 clang-format-14 libxml2-utils sqlite3 serdi raptor2-utils python3-rdflib python3-pyld python3-networkx python3-levenshtein python3-jsonschema librsvg2-bin chromium libzbar-dev libreoffice-writer-nogui poppler-utils unzip"
