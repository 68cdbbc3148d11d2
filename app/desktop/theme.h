#pragma once

#include <QIcon>
#include <QObject>

#include "desktop/palette.h"
#include "session/settings.h"

namespace fencewright::desktop {

/// The appearance of the whole program: light, dark, or as the system has it. Changes while it runs.
class Appearance : public QObject {
    Q_OBJECT

public:
    /// Applies at once. @param given  the word of the command line, which holds until another is chosen.
    Appearance(session::Settings& settings, std::optional<session::Theme> given, QObject* parent = nullptr);

    const Palette& palette() const { return m_palette; }
    session::Theme theme() const;

    /// Remembers the choice and applies it.
    void choose(session::Theme theme);

    /// A line icon in the text colour, quieter where disabled.
    QIcon icon(const QString& path) const;

    bool eventFilter(QObject* watched, QEvent* event) override;

signals:
    void changed();

private:
    void apply();
    bool systemIsDark() const;

    session::Settings& m_settings;
    std::optional<session::Theme> m_given;
    Palette m_palette;
    bool m_applying = false;
};

/// Type sizes of the window, in pixels.
inline constexpr int kSmallType = 12;
inline constexpr int kPlainType = 13;
inline constexpr int kHeadingType = 15;

} // namespace fencewright::desktop
