#pragma once

#include <QDialog>

#include "desktop/canvas/identify.h"

class QTreeWidget;
class QTreeWidgetItem;

namespace fencewright::desktop {

/// Features of reference layers with all that is written about them, to be read, copied and shown on the map. It stands
/// beside the map and blocks nothing.
class FeaturesDialog : public QDialog {
    Q_OBJECT

public:
    enum class Opened { All, None };
    /// @param heading  the place, or what was searched for.
    FeaturesDialog(const QString& title, const QString& heading, std::vector<FoundFeature> features, Opened opened,
                   QWidget* parent);

    /// What the chosen rows say, or else all: a line each, column and value apart by a tab.
    QString copied() const;

signals:
    void showRequested(const fencewright::geometry::Box& lonLatBox);

private:
    void fill(QTreeWidgetItem* item);
    void showOnMap(const QTreeWidgetItem* item);

    QString m_heading;
    std::vector<FoundFeature> m_features;
    QTreeWidget* m_tree;
};

} // namespace fencewright::desktop
