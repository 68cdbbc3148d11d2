#include "desktop/palette.h"

namespace fencewright::desktop {

Palette lightPalette() {
    return {.dark = false,
            .ground = QColor{0xF3F4F1},
            .panel = QColor{0xFFFFFF},
            .hairline = QColor{0xDCE0DB},
            .text = QColor{0x1B2430},
            .quietText = QColor{0x5C6773},
            .selection = QColor{0xE4ECF5},
            .field = QColor{0xF8F9F7},
            .keepIn = QColor{0x0B4F9E},
            .keepOut = QColor{0xA8116F},
            .doubt = QColor{0x9A5B00},
            .error = QColor{0x9B2C12},
            .accent = QColor{0x0B4F9E}};
}

Palette darkPalette() {
    return {.dark = true,
            .ground = QColor{0x20252B},
            .panel = QColor{0x272D34},
            .hairline = QColor{0x3A424B},
            .text = QColor{0xE8ECEF},
            .quietText = QColor{0x9DA8B3},
            .selection = QColor{0x33424F},
            .field = QColor{0x1D2228},
            .keepIn = QColor{0x6FB1FF},
            .keepOut = QColor{0xFF8AD0},
            .doubt = QColor{0xF2B94B},
            .error = QColor{0xFF9B7A},
            .accent = QColor{0x6FB1FF}};
}

} // namespace fencewright::desktop
