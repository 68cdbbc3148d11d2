#include "desktop/dialogs/corners_dialog.h"

#include "desktop/dialogs/pasted_corners_dialog.h"
#include "fault.h"
#include "session/translated.h"

#include <QtWidgets>

#include <algorithm>
#include <numeric>
#include <utility>

namespace fencewright::desktop {
namespace {

constexpr int kRowHeight = 26;
constexpr qsizetype kReadAtOnce = 15'000;                            ///< characters: some ten milliseconds
constexpr std::size_t kCopiedAtOnce = 1'000;                         ///< rows: some milliseconds
constexpr int kWidths[CornerModel::Columns] = {84, 64, 0, 130, 110}; ///< of the columns; 0: what is left

} // namespace

CornersDialog::CornersDialog(session::OpenDocument& document, const session::Settings& settings,
                             session::BackgroundJobs& jobs, ClipboardText& clipboard, QWidget* parent)
    : QDialog{parent}, m_document{document}, m_settings{settings}, m_jobs{jobs},
      m_clipboard{clipboard}, m_model{new CornerModel{document, settings, this}}, m_table{new QTableView{this}},
      m_heading{new QLabel{this}}, m_words{new QLabel{this}} {
    setObjectName("cornersDialog");
    setWindowTitle(tr("Corners"));
    resize(760, 460);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 16, 24, 16);
    column->setSpacing(10);
    m_heading->setObjectName("cornersHeading");
    m_heading->setProperty("heading", true);
    m_heading->setTextFormat(Qt::PlainText);
    m_heading->setWordWrap(true);
    column->addWidget(m_heading);
    m_table->setObjectName("cornersTable");
    m_table->setAccessibleName(tr("Table of corners"));
    m_table->setModel(m_model);
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_table->setEditTriggers(QAbstractItemView::DoubleClicked | QAbstractItemView::EditKeyPressed |
                             QAbstractItemView::AnyKeyPressed);
    m_table->setTabKeyNavigation(false);
    m_table->setWordWrap(false);
    m_table->verticalHeader()->hide();
    // Of one height: nobody measures a hundred thousand rows.
    m_table->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    m_table->verticalHeader()->setDefaultSectionSize(kRowHeight);
    m_table->horizontalHeader()->setHighlightSections(false);
    for (int i = 0; i < CornerModel::Columns; ++i)
        if (kWidths[i] > 0)
            m_table->setColumnWidth(i, kWidths[i]);
        else
            m_table->horizontalHeader()->setSectionResizeMode(i, QHeaderView::Stretch);
    column->addWidget(m_table, 1);
    m_words->setObjectName("cornersWords");
    m_words->setWordWrap(true);
    m_words->setTextFormat(Qt::PlainText);
    m_words->setProperty("refusal", true);
    m_words->hide();
    column->addWidget(m_words);

    auto* row = new QHBoxLayout;
    const auto button = [&](const char* name, const QString& words, const QKeySequence& key, auto act) {
        auto* made = new QPushButton{words, this};
        made->setObjectName(name);
        made->setAutoDefault(false);
        row->addWidget(made);
        connect(made, &QPushButton::clicked, this, act);
        if (!key.isEmpty()) {
            made->setToolTip(tr("%1 (%2)").arg(words, key.toString(QKeySequence::NativeText)));
            auto* shortcut = new QShortcut{key, m_table};
            shortcut->setContext(Qt::WidgetWithChildrenShortcut);
            connect(shortcut, &QShortcut::activated, made, &QPushButton::click);
        }
        return made;
    };
    m_buttons.push_back(button("cornersInsert", tr("Insert"), Qt::Key_Insert, [this] { insert(); }));
    m_buttons.push_back(button("cornersDelete", tr("Delete"), Qt::Key_Delete, [this] { remove(); }));
    m_buttons.push_back(button("cornersCopy", tr("Copy"), QKeySequence::Copy, [this] { copy(); }));
    m_buttons.push_back(button("cornersPaste", tr("Paste…"), QKeySequence::Paste, [this] { paste(); }));
    row->addStretch(1);
    button("cornersClose", tr("Close"), {}, [this] { close(); });
    column->addLayout(row);

    connect(m_model, &CornerModel::refused, this, &CornersDialog::say);
    connect(m_model, &CornerModel::taken, this, [this] { say({}); });
    connect(m_model, &QAbstractItemModel::modelReset, this, &CornersDialog::restoreRow);
    connect(m_model, &QAbstractItemModel::modelReset, this, &CornersDialog::restate);
    connect(m_model, &QAbstractItemModel::dataChanged, this, &CornersDialog::restate);
    connect(m_table->selectionModel(), &QItemSelectionModel::currentRowChanged, this, [this](const QModelIndex& now) {
        if (!now.isValid())
            return; // the rows are being made anew
        m_current = m_model->cornerAt(now.row());
        if (!m_marking)
            emit cornerChosen(m_current);
    });
    restate();
}

/// What is being typed is dropped: it would be taken while the table goes, and nobody could see what came of it.
CornersDialog::~CornersDialog() {
    if (m_reading)
        m_reading->cancel();
    m_model->disconnect(this);
    m_table->setModel(nullptr);
}

void CornersDialog::showFence(const std::optional<model::FenceId>& fence) {
    if (fence != m_model->shown()) {
        m_current.reset();
        say({});
    }
    m_model->show(fence);
    restate();
}

void CornersDialog::markCorner(const std::optional<Corner>& corner) {
    const int row = corner ? m_model->rowOf(*corner) : -1;
    if (row < 0 || row == m_table->currentIndex().row())
        return;
    m_marking = true;
    m_table->setCurrentIndex(m_model->index(row, std::max(0, m_table->currentIndex().column())));
    m_table->scrollTo(m_table->currentIndex());
    m_marking = false;
}

/// After the rows were made anew: the one that was current, or the one that stands there now.
void CornersDialog::restoreRow() {
    if (!m_current || m_model->rowCount() == 0)
        return;
    int row = m_model->rowOf(*m_current);
    for (; row < 0 && m_current->index > 0; row = m_model->rowOf(*m_current))
        --m_current->index;
    if (row < 0)
        return;
    m_marking = true;
    m_table->setCurrentIndex(m_model->index(row, CornerModel::Place));
    m_marking = false;
}

void CornersDialog::restate() {
    const model::Fence* fence = m_model->fence();
    m_heading->setText(m_reading ? tr("Reading the pasted rows…")
                       : fence ? tr("%1, %2 corners").arg(QString::fromStdString(fence->name)).arg(m_model->rowCount())
                               : tr("Choose one polygon or corridor on the map."));
    for (QPushButton* button : m_buttons)
        button->setEnabled(fence && !m_reading);
}

void CornersDialog::say(const QString& words) {
    m_words->setText(words);
    m_words->setVisible(!words.isEmpty());
}

std::vector<int> CornersDialog::chosenRows() const {
    std::vector<int> rows;
    for (const QItemSelectionRange& range : m_table->selectionModel()->selection())
        for (int row = range.top(); row <= range.bottom(); ++row)
            rows.push_back(row);
    std::sort(rows.begin(), rows.end());
    rows.erase(std::unique(rows.begin(), rows.end()), rows.end());
    return rows;
}

/// The chosen rows, where they follow one another in one line.
std::optional<CornerRun> CornersDialog::chosenRun() const {
    const std::vector<int> rows = chosenRows();
    if (rows.empty())
        return std::nullopt;
    const Corner first = *m_model->cornerAt(rows.front()), last = *m_model->cornerAt(rows.back());
    if (first.line != last.line || rows.back() - rows.front() + 1 != int(rows.size()))
        return std::nullopt;
    return CornerRun{first.line, first.index, rows.size()};
}

/// The chosen rows, or all, with a heading. Many are written beside the window, as they stand now.
void CornersDialog::copy() {
    std::vector<int> rows = chosenRows();
    if (rows.empty()) {
        rows.resize(std::size_t(m_model->rowCount()));
        std::iota(rows.begin(), rows.end(), 0);
    }
    if (rows.size() <= kCopiedAtOnce)
        return m_clipboard.put({m_model->cells().table(rows, m_model->manner()), {}, {}});
    const auto count = rows.size();
    m_clipboard.write(tr("Copying %1 corners").arg(count),
                      [cells = m_model->cells(), rows = std::move(rows), manner = m_model->manner(),
                       note = tr("%1 corners are on the clipboard.").arg(count)](const Progress& progress) {
                          return ClipboardEntry{cells.table(rows, manner, progress), note, {}};
                      });
}

void CornersDialog::push(model::Fence fence, const QString& title) {
    m_document.push(model::replaceFence(m_document.set(), std::move(fence), title.toStdString()));
    say({});
}

/// A corner amid the leg to the next; of the last one of an open line, amid the leg before it.
void CornersDialog::insert() {
    const model::Fence* fence = m_model->fence();
    if (!fence)
        return;
    const auto current = m_model->cornerAt(m_table->currentIndex().row());
    Corner corner = current.value_or(Corner{fence->id, 0, 0});
    const EditableLine line = editableLines(fence->shape)[corner.line];
    if (corner.index >= line.edges() && corner.index > 0)
        --corner.index;
    if (corner.index >= line.edges())
        return say(tr("A line of one corner has no leg to put another on."));
    try {
        const model::Position &from = (*line.corners)[corner.index], &to = line.edgeEnd(corner.index);
        const model::Position middle{(from.lon + to.lon) / 2.0, (from.lat + to.lat) / 2.0};
        const Corner added{corner.fence, corner.line, corner.index + 1};
        m_current = added;
        push(withCornerInserted(*fence, added, middle),
             tr("Add corner to %1").arg(QString::fromStdString(fence->name)));
        emit cornerChosen(added);
    } catch (const Fault& fault) {
        say(session::translated(fault));
    }
}

void CornersDialog::remove() {
    const model::Fence* fence = m_model->fence();
    const std::vector<int> rows = chosenRows();
    if (!fence || rows.empty())
        return;
    std::vector<Corner> corners;
    for (const int row : rows)
        corners.push_back(*m_model->cornerAt(row));
    try {
        const QString name = QString::fromStdString(fence->name);
        m_current = corners.front();
        push(withoutCorners(*fence, corners), corners.size() == 1
                                                  ? tr("Delete corner of %1").arg(name)
                                                  : tr("Delete %1 corners of %2").arg(corners.size()).arg(name));
        emit cornerChosen(m_model->cornerAt(m_table->currentIndex().row()));
    } catch (const Fault& fault) {
        say(session::translated(fault));
    }
}

/// What a hundred thousand rows say takes seconds to find out: then it is read while the window goes on.
void CornersDialog::paste() {
    if (!m_model->fence() || m_reading)
        return;
    const model::FenceId of = m_model->fence()->id;
    const QString text = QGuiApplication::clipboard()->text();
    if (text.size() <= kReadAtOnce) {
        try {
            ask(of, geodesy::readPlaceRows(text.toStdString()));
        } catch (const Fault& fault) {
            say(session::translated(fault));
        }
        return;
    }
    say({});
    m_reading = m_jobs.start(
        tr("Reading the pasted rows"),
        [text](const Progress& progress) { return geodesy::readPlaceRows(text.toStdString(), progress); },
        [this, of](geodesy::PlaceRows rows) { ask(of, std::move(rows)); },
        [this](const Fault& fault) { say(session::translated(fault)); });
    connect(m_reading, &session::BackgroundJob::finished, this, [this] {
        m_reading = nullptr;
        restate();
    });
    restate();
}

/// The fence that rows were pasted for, as it stands now; null, and said, if another is shown by now.
const model::Fence* CornersDialog::stillShown(const model::FenceId& of) {
    const model::Fence* fence = m_model->fence();
    if (fence && fence->id == of)
        return fence;
    say(tr("The pasted rows were dropped: they were meant for the fence that was shown before."));
    return nullptr;
}

/// What is to become of the rows, of the fence as it stands now.
void CornersDialog::ask(const model::FenceId& of, geodesy::PlaceRows rows) {
    const model::Fence* fence = stillShown(of);
    if (!fence)
        return;
    using Where = PastedCornersDialog::Where;
    const auto run = chosenRun();
    const Corner current = m_model->cornerAt(m_table->currentIndex().row()).value_or(Corner{fence->id, 0, 0});
    const QString name = m_model->cells().lineWords(current.line);
    const CornerRun whole{current.line, 0, m_model->cells().line(current.line).corners->size()};
    std::vector<PastedCornersDialog::Offer> offers;
    if (run)
        offers.push_back({Where::InsteadOfChosen, run->count == 1
                                                      ? tr("Instead of corner %1 of %2").arg(run->first + 1).arg(name)
                                                      : tr("Instead of the %1 chosen corners").arg(run->count)});
    if (m_table->currentIndex().isValid())
        offers.push_back({Where::After, tr("After corner %1 of %2").arg(current.index + 1).arg(name)});
    offers.push_back({Where::InsteadOfAll, tr("Instead of all %1 corners of %2").arg(whole.count).arg(name)});
    // One row is current by itself: nobody has chosen it to be replaced by several.
    if (run && run->count == 1 && rows.rows.size() > 1)
        std::rotate(offers.begin(), offers.end() - 1, offers.end());
    auto* dialog = new PastedCornersDialog{std::move(rows), offers, m_settings.notation(), this};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, of, run, current, whole] {
        switch (dialog->where()) {
        case Where::InsteadOfChosen:
            return take(of, *run, dialog->places());
        case Where::After:
            return take(of, {current.line, current.index + 1, 0}, dialog->places());
        case Where::InsteadOfAll:
            return take(of, whole, dialog->places());
        }
    });
    dialog->open();
}

void CornersDialog::take(const model::FenceId& of, const CornerRun& run, const model::LineString& places) {
    const model::Fence* fence = stillShown(of);
    if (!fence)
        return;
    try {
        m_current = Corner{fence->id, run.line, run.first};
        push(withRunReplaced(*fence, run, places),
             tr("Paste corners into %1").arg(QString::fromStdString(fence->name)));
        emit cornerChosen(m_current);
    } catch (const Fault& fault) {
        say(session::translated(fault));
    }
}

} // namespace fencewright::desktop
