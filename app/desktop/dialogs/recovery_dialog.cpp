#include "desktop/dialogs/recovery_dialog.h"

#include <QtWidgets>

namespace fencewright::desktop {

RecoveryDialog::RecoveryDialog(std::vector<store::RecoveryCopy> copies, QWidget* parent)
    : QDialog{parent}, m_copies{std::move(copies)}, m_table{new QTableWidget{int(m_copies.size()), 2, this}} {
    setObjectName("recoveryDialog");
    setWindowTitle(tr("Unsaved work"));
    resize(620, 300);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 20, 24, 16);
    column->setSpacing(12);
    auto* heading = new QLabel{tr("The program ended with unsaved work"), this};
    heading->setProperty("heading", true);
    column->addWidget(heading);
    auto* words = new QLabel{tr("A copy of it was kept. Recover it, look at it, and save it where you want it."), this};
    words->setProperty("quiet", true);
    words->setWordWrap(true);
    column->addWidget(words);
    m_table->setObjectName("recoveryTable");
    m_table->setAccessibleName(heading->text());
    m_table->setHorizontalHeaderLabels({tr("Document"), tr("Copy written")});
    m_table->verticalHeader()->hide();
    m_table->setShowGrid(false);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::SingleSelection);
    m_table->horizontalHeader()->setSectionResizeMode(0, QHeaderView::Stretch);
    m_table->horizontalHeader()->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    m_table->horizontalHeader()->setDefaultAlignment(Qt::AlignLeft | Qt::AlignVCenter);
    for (std::size_t i = 0; i < m_copies.size(); ++i) {
        const QString path = QString::fromStdString(m_copies[i].documentPath);
        const auto written =
            std::chrono::duration_cast<std::chrono::milliseconds>(m_copies[i].written.time_since_epoch());
        m_table->setItem(int(i), 0, new QTableWidgetItem{path.isEmpty() ? tr("never saved") : path});
        m_table->setItem(
            int(i), 1,
            new QTableWidgetItem{QDateTime::fromMSecsSinceEpoch(written.count()).toString("yyyy-MM-dd HH:mm:ss")});
    }
    m_table->selectRow(0);
    column->addWidget(m_table, 1);
    auto* discard = new QPushButton{tr("Throw away"), this};
    discard->setObjectName("recoveryDiscard");
    discard->setAutoDefault(false);
    auto* later = new QPushButton{tr("Decide later"), this};
    later->setAutoDefault(false);
    auto* recover = new QPushButton{tr("Recover"), this};
    recover->setObjectName("recoveryRecover");
    recover->setDefault(true);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(discard);
    buttons->addStretch(1);
    buttons->addWidget(later);
    buttons->addWidget(recover);
    column->addLayout(buttons);
    const auto row = [this] { return std::size_t(m_table->currentRow()); };
    connect(later, &QPushButton::clicked, this, &QDialog::reject);
    connect(recover, &QPushButton::clicked, this, [this, row] {
        if (row() < m_copies.size())
            emit recoverRequested(m_copies[row()]);
        accept();
    });
    connect(discard, &QPushButton::clicked, this, [this, row] {
        if (row() < m_copies.size())
            askAndDiscard(row());
    });
}

void RecoveryDialog::askAndDiscard(std::size_t at) {
    auto* sure = new QMessageBox{QMessageBox::Question, tr("Unsaved work"),
                                 tr("Throw this copy away? The unsaved work in it cannot be brought back."),
                                 QMessageBox::NoButton, this};
    sure->setObjectName("recoverySure");
    sure->setAttribute(Qt::WA_DeleteOnClose);
    sure->setInformativeText(m_table->item(int(at), 0)->text() + ", " + m_table->item(int(at), 1)->text());
    QPushButton* away = sure->addButton(tr("Throw away"), QMessageBox::DestructiveRole);
    away->setObjectName("recoverySureAway");
    QPushButton* keep = sure->addButton(tr("Keep it"), QMessageBox::RejectRole);
    keep->setObjectName("recoverySureKeep");
    sure->setDefaultButton(keep);
    sure->setEscapeButton(keep);
    connect(away, &QPushButton::clicked, this, [this, at] {
        emit discardRequested(m_copies[at]);
        m_copies.erase(m_copies.begin() + std::ptrdiff_t(at));
        m_table->removeRow(int(at));
        if (m_copies.empty())
            accept();
    });
    sure->open();
}

} // namespace fencewright::desktop
