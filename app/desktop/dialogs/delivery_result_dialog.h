#pragma once

#include <QDialog>

#include "desktop/palette.h"
#include "exchange/delivery.h"
#include "units/measure_notation.h"

namespace fencewright::desktop {

/// What became of a delivery: whether it was confirmed by reading it back, what it cost, what to mind.
class DeliveryResultDialog : public QDialog {
    Q_OBJECT

public:
    DeliveryResultDialog(const exchange::DeliveryReport& report, units::System units, const Palette& palette,
                         QWidget* parent);
};

} // namespace fencewright::desktop
