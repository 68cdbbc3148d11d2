#pragma once

#include <QDialog>

#include "geodesy/coordinate_notation.h"
#include "geodesy/place_rows.h"

class QAbstractButton;
class QButtonGroup;
class QLabel;
class QPushButton;

namespace fencewright::desktop {

/// Asks what is to become of corners that were pasted: where they go, and, of bare numbers, which are the latitudes.
class PastedCornersDialog : public QDialog {
    Q_OBJECT

public:
    enum class Where { InsteadOfChosen, After, InsteadOfAll };
    struct Offer {
        Where where = Where::InsteadOfAll;
        QString words; ///< "Instead of all corners of the outline"
    };

    /// @param offers  the first one is meant unless another is chosen.
    PastedCornersDialog(geodesy::PlaceRows rows, const std::vector<Offer>& offers, geodesy::Notation notation,
                        QWidget* parent);

    Where where() const;
    /// Once it was accepted.
    const model::LineString& places() const { return m_places; }

private:
    void restate();
    std::optional<geodesy::AxisOrder> order() const;

    geodesy::PlaceRows m_rows;
    geodesy::Notation m_notation;
    model::LineString m_places;
    QButtonGroup* m_order;
    QButtonGroup* m_where;
    QLabel* m_read;
    QPushButton* m_go;
};

} // namespace fencewright::desktop
