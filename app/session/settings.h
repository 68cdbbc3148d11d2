#pragma once

#include <QByteArray>
#include <QObject>
#include <QSettings>
#include <QStringList>

#include "geodesy/coordinate_notation.h"
#include "units/measure_notation.h"

namespace fencewright::session {

enum class Theme { FollowSystem, Light, Dark };

/// The lines over the map.
enum class MapGrid { None, Degrees, Utm, Mgrs };

/// What lasts from one start to the next. A value that cannot be read is its default.
class Settings : public QObject {
    Q_OBJECT

public:
    /// @param file  an INI file; empty: the user's own place for settings.
    explicit Settings(const QString& file = {}, QObject* parent = nullptr);

    units::System unitSystem() const;
    void setUnitSystem(units::System system);
    geodesy::Notation notation() const;
    void setNotation(geodesy::Notation notation);
    Theme theme() const;
    void setTheme(Theme theme);
    MapGrid mapGrid() const;
    void setMapGrid(MapGrid grid);

    /// Newest first, at most ten, only those that exist.
    QStringList recentDocuments() const;
    void addRecentDocument(const QString& path);
    void clearRecentDocuments();

    /// Servers of tiles that the person has named or agreed to: scheme, host and port, never a name, password or key.
    QStringList knownServers() const;
    void addKnownServer(const QString& server);

    QByteArray windowGeometry() const;
    void setWindowGeometry(const QByteArray& geometry);
    /// The folder of the last file dialog.
    QString lastFolder() const;
    void setLastFolder(const QString& folder);

signals:
    /// Units, notation, theme or grid changed.
    void changed();

private:
    mutable QSettings m_store;
};

} // namespace fencewright::session
