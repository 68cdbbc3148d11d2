#pragma once

#include <QColor>

namespace fencewright::desktop {

/// The colours of one appearance, by what they are for.
struct Palette {
    bool dark = false;
    QColor ground; ///< behind everything: bars, the strip, the status line
    QColor panel;  ///< the ledger
    QColor hairline;
    QColor text;
    QColor quietText;
    QColor selection; ///< the selected row
    QColor field;     ///< an input
    QColor keepIn;    ///< in panels
    QColor keepOut;
    QColor doubt;
    QColor error;
    QColor accent; ///< focus and primary buttons
};

[[nodiscard]] Palette lightPalette();
[[nodiscard]] Palette darkPalette();

/// Symbols on the map are drawn over imagery, light and dark, and so are the same in both appearances.
inline constexpr QRgb kMapKeepIn = 0xFF0B4F9E;
inline constexpr QRgb kMapKeepOut = 0xFFA8116F;
inline constexpr QRgb kMapInk = 0xFF1B2430;
inline constexpr QRgb kMapCasing = 0xFFFFFFFF;

} // namespace fencewright::desktop
