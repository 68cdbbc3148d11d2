#pragma once

#include <QDialog>

#include "store/recovery.h"

class QTableWidget;

namespace fencewright::desktop {

/// Unsaved work that a crash left behind: recover one, throw one away, or decide later.
class RecoveryDialog : public QDialog {
    Q_OBJECT

public:
    RecoveryDialog(std::vector<store::RecoveryCopy> copies, QWidget* parent);

signals:
    void recoverRequested(const fencewright::store::RecoveryCopy& copy);
    void discardRequested(const fencewright::store::RecoveryCopy& copy);

private:
    void askAndDiscard(std::size_t at);

    std::vector<store::RecoveryCopy> m_copies;
    QTableWidget* m_table;
};

} // namespace fencewright::desktop
