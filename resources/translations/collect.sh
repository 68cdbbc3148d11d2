#!/usr/bin/env bash
# Collects the texts of the window and of core/ into a Qt Linguist file; what is translated there stays.
#   resources/translations/collect.sh          into fencewright_de.ts, to be translated with Qt Linguist
#   resources/translations/collect.sh FILE.ts  into another one
set -euo pipefail
cd "$(dirname "${BASH_SOURCE[0]}")/../.."
file=${1:-resources/translations/fencewright_de.ts}
# phrase() is how core/ marks its texts: core/wording.h.
exec /usr/lib/qt6/bin/lupdate -silent -no-obsolete -locations none -tr-function-alias QT_TRANSLATE_NOOP+=phrase -I app -I core \
    -source-language en -target-language de app/desktop app/session core -ts "$file"
