#include "desktop/panels/ledger_panel.h"

#include "desktop/panels/symbols.h"
#include "desktop/panels/tab_button.h"

#include <QtWidgets>

#include <algorithm>
#include <utility>

namespace fencewright::desktop {
namespace {

std::optional<Thing> thingOf(const LedgerKey& key) {
    if (const auto* fence = std::get_if<model::FenceId>(&key))
        return *fence;
    if (const auto* site = std::get_if<model::SiteId>(&key))
        return *site;
    if (const auto* home = std::get_if<model::HomeId>(&key))
        return *home;
    return std::nullopt;
}

LedgerPage pageOf(const Thing& thing) { return LedgerPage(thing.index()); }

constexpr int kRowHeight = 26;
constexpr int kMarkWidth = 24;
constexpr int kLockSize = 13;

class RowDelegate : public QStyledItemDelegate {
public:
    RowDelegate(LedgerModel& model, Appearance& appearance, QObject* parent)
        : QStyledItemDelegate{parent}, m_model{model}, m_appearance{appearance} {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const LedgerModel::Row& row = m_model.rowAt(index.row());
        const Palette& palette = m_appearance.palette();
        const bool selected = option.state & QStyle::State_Selected;
        painter->save();
        if (selected)
            painter->fillRect(option.rect, palette.selection);
        QFont font = option.font;
        font.setPixelSize(kPlainType);
        QRect box = option.rect.adjusted(4, 0, -4, 0);
        const bool quiet = !selected && (index.column() == 1 || !row.inForce);
        const QColor ink = quiet ? palette.quietText : palette.text;
        if (index.column() == 0) {
            const QRectF symbol{double(box.left()), box.center().y() - 7.5, 16, 16};
            paintSymbol(*painter, symbol, row, palette);
            box.setLeft(box.left() + 24);
            if (selected)
                font.setWeight(QFont::DemiBold);
            if (row.locked) {
                const QRect mark{box.right() - kLockSize, box.center().y() - kLockSize / 2, kLockSize, kLockSize};
                m_appearance.icon(QStringLiteral(":/icons/locked.svg")).paint(painter, mark);
                box.setRight(mark.left() - 4);
            }
        }
        int flags = Qt::AlignVCenter | Qt::TextSingleLine;
        if (index.column() == 2)
            flags |= Qt::AlignRight;
        if (index.column() == 3 && row.worst)
            paintSeverity(*painter, QRectF(box.center().x() - 6.5, box.center().y() - 6.5, 14, 14), *row.worst,
                          palette);
        painter->setFont(font);
        painter->setPen(ink);
        const QString words = index.data(Qt::DisplayRole).toString();
        painter->drawText(box, flags, QFontMetrics{font}.elidedText(words, Qt::ElideRight, box.width()));
        if ((option.state & QStyle::State_HasFocus) && index.column() == 0) {
            painter->fillRect(QRect{option.rect.left(), option.rect.top(), 3, option.rect.height()}, palette.accent);
        }
        painter->restore();
    }

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        QFont font = option.font;
        font.setPixelSize(kPlainType);
        const int text = QFontMetrics{font}.horizontalAdvance(index.data(Qt::DisplayRole).toString());
        return {text + 12 + (index.column() == 0 ? 28 : 0), kRowHeight};
    }

private:
    static void paintSymbol(QPainter& painter, const QRectF& box, const LedgerModel::Row& row, const Palette& palette) {
        switch (row.symbol) {
        case RowSymbol::KeepIn:
            return paintFenceSymbol(painter, box, model::FenceKind::KeepIn, row.inForce, palette);
        case RowSymbol::KeepOut:
            return paintFenceSymbol(painter, box, model::FenceKind::KeepOut, row.inForce, palette);
        case RowSymbol::Site:
            return paintSiteSymbol(painter, box, palette);
        case RowSymbol::Home:
            return paintHomeSymbol(painter, box, false, palette);
        case RowSymbol::Alternate:
            return paintHomeSymbol(painter, box, true, palette);
        case RowSymbol::Imagery:
        case RowSymbol::Reference:
            break;
        }
        painter.save();
        painter.setRenderHint(QPainter::Antialiasing);
        painter.setPen(QPen{row.inForce ? palette.text : palette.quietText, 1.4});
        const QRectF frame = box.adjusted(1, 2.5, -1, -2.5);
        painter.drawRect(frame);
        if (row.symbol == RowSymbol::Imagery) {
            painter.drawPolyline(QPolygonF{{frame.left(), frame.bottom() - 2},
                                           {frame.left() + 4, frame.top() + 5},
                                           {frame.left() + 8, frame.bottom() - 3},
                                           {frame.right(), frame.top() + 4}});
        } else {
            painter.drawLine(QPointF{frame.center().x(), frame.top()}, QPointF{frame.center().x(), frame.bottom()});
            painter.drawLine(QPointF{frame.center().x(), frame.center().y()},
                             QPointF{frame.right(), frame.center().y()});
        }
        painter.restore();
    }

    LedgerModel& m_model;
    Appearance& m_appearance;
};

} // namespace

LedgerPanel::LedgerPanel(LedgerModel& model, Appearance& appearance, QWidget* parent)
    : QWidget{parent}, m_model{model}, m_table{new QTableView{this}}, m_count{new QLabel{this}}, m_none{
                                                                                                     new QLabel{this}} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(4);
    auto* heading = new QHBoxLayout;
    heading->setContentsMargins(16, 8, 16, 0);
    heading->setSpacing(16);
    const std::pair<const char*, QString> tabs[] = {{"tabFences", tr("Fences")},
                                                    {"tabSites", tr("Sites")},
                                                    {"tabHomes", tr("Homes")},
                                                    {"tabSources", tr("Sources")}};
    auto* group = new QButtonGroup{this};
    for (const auto& [name, words] : tabs) {
        QPushButton* tab = tabButton(name, words, this);
        group->addButton(tab, int(m_tabs.size()));
        heading->addWidget(tab);
        m_tabs.push_back(tab);
    }
    m_tabs.front()->setChecked(true);
    heading->addStretch(1);
    column->addLayout(heading);
    m_count->setObjectName("ledgerCount");
    m_count->setProperty("quiet", true);
    m_count->setContentsMargins(16, 0, 16, 0);
    column->addWidget(m_count);

    m_table->setObjectName("ledgerTable");
    m_table->setAccessibleName(tr("Ledger"));
    m_table->setModel(&model);
    m_table->setItemDelegate(new RowDelegate{model, appearance, m_table});
    m_table->setSelectionBehavior(QAbstractItemView::SelectRows);
    m_table->setSelectionMode(QAbstractItemView::ExtendedSelection);
    m_table->setEditTriggers(QAbstractItemView::NoEditTriggers);
    m_table->setTabKeyNavigation(false);
    m_table->setShowGrid(false);
    m_table->setFrameShape(QFrame::NoFrame);
    m_table->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    m_table->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_table->setWordWrap(false);
    m_table->verticalHeader()->hide();
    m_table->verticalHeader()->setDefaultSectionSize(kRowHeight);
    m_table->verticalHeader()->setMinimumSectionSize(kRowHeight);
    QHeaderView* header = m_table->horizontalHeader();
    header->setHighlightSections(false);
    header->setSectionsClickable(false);
    header->setSectionResizeMode(0, QHeaderView::Stretch);
    header->setSectionResizeMode(1, QHeaderView::ResizeToContents);
    header->setSectionResizeMode(2, QHeaderView::ResizeToContents);
    header->setSectionResizeMode(3, QHeaderView::Fixed);
    header->setMinimumSectionSize(kMarkWidth);
    header->resizeSection(3, kMarkWidth);
    header->setResizeContentsPrecision(200);
    header->setFixedHeight(22);
    m_none->setObjectName("ledgerNone");
    m_none->setProperty("quiet", true);
    m_none->setWordWrap(true);
    m_none->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    m_none->setContentsMargins(16, 8, 16, 0);
    m_host = new QWidget{this};
    auto* table = new QHBoxLayout{m_host};
    table->setContentsMargins(12, 0, 12, 0);
    table->addWidget(m_table);
    column->addWidget(m_host, 1);
    column->addWidget(m_none, 1);

    m_table->viewport()->installEventFilter(this);
    m_table->installEventFilter(this);
    connect(group, &QButtonGroup::idClicked, this, [this](int id) {
        showPage(LedgerPage(id));
        emit pageChanged();
    });
    connect(&model, &LedgerModel::rebuilt, this, [this] {
        const auto* source = std::get_if<model::SourceId>(&m_chosen);
        if (source && m_model.rowOf(*source) < 0 && !m_marking) {
            m_chosen = {};
            emit chosenChanged();
        }
        markRows();
        relabel();
    });
    connect(m_table->selectionModel(), &QItemSelectionModel::selectionChanged, this, [this] {
        if (!m_marking)
            takeRows();
    });
    connect(m_table, &QTableView::doubleClicked, this, &LedgerPanel::opened);
    connect(m_table, &QTableView::activated, this, &LedgerPanel::opened);
    connect(&appearance, &Appearance::changed, m_table->viewport(), qOverload<>(&QWidget::update));
    relabel();
}

void LedgerPanel::showPage(LedgerPage page) {
    if (page == m_model.page())
        return;
    m_tabs[std::size_t(page)]->setChecked(true);
    m_chosen = {};
    turnTo(page);
    emit chosenChanged();
}

void LedgerPanel::choose(const Chosen& chosen) {
    if (chosen == m_chosen)
        return;
    m_chosen = chosen;
    m_marking = true;
    if (std::holds_alternative<model::SourceId>(chosen)) {
        turnTo(LedgerPage::Sources);
    } else if (const auto& things = std::get<Selection>(chosen).things(); !things.empty()) {
        const bool shown = std::any_of(things.begin(), things.end(),
                                       [this](const Thing& thing) { return pageOf(thing) == m_model.page(); });
        if (!shown)
            turnTo(pageOf(things.back()));
    }
    m_marking = false;
    markRows();
}

void LedgerPanel::turnTo(LedgerPage page) {
    m_tabs[std::size_t(page)]->setChecked(true);
    // The order of sources is changed by dragging one row: there, a drag must not choose those it passes.
    m_table->setSelectionMode(page == LedgerPage::Sources ? QAbstractItemView::SingleSelection
                                                          : QAbstractItemView::ExtendedSelection);
    if (page != m_model.page())
        m_model.setPage(page);
}

/// What a person marked. Things of other pages stay chosen while Ctrl says that this one is added.
void LedgerPanel::takeRows() {
    const QModelIndexList rows = m_table->selectionModel()->selectedRows();
    Chosen chosen;
    if (m_model.page() == LedgerPage::Sources) {
        if (!rows.isEmpty())
            chosen = std::get<model::SourceId>(m_model.rowAt(rows.front().row()).key);
    } else {
        std::vector<int> numbers;
        for (const QModelIndex& row : rows)
            numbers.push_back(row.row());
        std::sort(numbers.begin(), numbers.end());
        std::vector<Thing> onPage;
        for (const int row : numbers)
            if (const auto thing = thingOf(m_model.rowAt(row).key))
                onPage.push_back(*thing);
        const Selection marked{std::move(onPage)};
        const bool adding = QApplication::keyboardModifiers() & Qt::ControlModifier;
        std::vector<Thing> kept;
        if (const auto* before = std::get_if<Selection>(&m_chosen))
            std::copy_if(
                before->things().begin(), before->things().end(), std::back_inserter(kept),
                [&](const Thing& thing) { return pageOf(thing) == m_model.page() ? marked.contains(thing) : adding; });
        chosen = Selection{std::move(kept)}.with(marked);
    }
    if (chosen == m_chosen)
        return;
    m_chosen = std::move(chosen);
    emit chosenChanged();
}

int LedgerPanel::rowOf(const Thing& thing) const {
    return pageOf(thing) == m_model.page()
               ? m_model.rowOf(std::visit([](const auto& id) -> LedgerKey { return id; }, thing))
               : -1;
}

/// The row of the thing chosen last; -1 where it is on another page.
int LedgerPanel::lastChosenRow() const {
    if (const auto* source = std::get_if<model::SourceId>(&m_chosen))
        return m_model.rowOf(*source);
    const auto& things = std::get<Selection>(m_chosen).things();
    return things.empty() ? -1 : rowOf(things.back());
}

void LedgerPanel::markRows() {
    m_marking = true;
    QItemSelection marks;
    const auto* things = std::get_if<Selection>(&m_chosen);
    const auto isChosen = [&](const LedgerKey& key) {
        const auto thing = thingOf(key);
        return thing && things->contains(*thing);
    };
    const int last = lastChosenRow();
    const auto mark = [&](int first, int end) {
        if (first >= 0 && first < end)
            marks.select(m_model.index(first, 0), m_model.index(end - 1, m_model.columnCount() - 1));
    };
    if (!things || things->size() <= 1) {
        mark(last, last + 1);
    } else {
        int first = -1;
        for (int row = 0; row <= m_model.rowCount(); ++row) {
            const bool chosen = row < m_model.rowCount() && isChosen(m_model.rowAt(row).key);
            if (!chosen)
                mark(std::exchange(first, -1), row);
            else if (first < 0)
                first = row;
        }
    }
    auto* model = m_table->selectionModel();
    // Where a person goes on with the arrow keys, from what is marked already, the current row stays.
    const QModelIndex now = m_table->currentIndex();
    if (last < 0 || !now.isValid() || !marks.contains(now))
        model->setCurrentIndex(last < 0 ? QModelIndex{} : m_model.index(last, 0), QItemSelectionModel::NoUpdate);
    if (model->selection() != marks)
        model->select(marks, QItemSelectionModel::ClearAndSelect);
    if (last >= 0 && (!things || things->size() == 1))
        m_table->scrollTo(m_model.index(last, 0));
    m_marking = false;
}

bool LedgerPanel::followKey(const QKeyEvent& key) {
    const auto* source = std::get_if<model::SourceId>(&m_chosen);
    if (!source)
        return false;
    const model::SourceId id = *source; // what follows chooses anew
    if (key.key() == Qt::Key_Space && key.modifiers() == Qt::NoModifier) {
        emit toggled(id);
        return true;
    }
    const int step = key.key() == Qt::Key_Up ? -1 : key.key() == Qt::Key_Down ? 1 : 0;
    if (step == 0 || !(key.modifiers() & Qt::AltModifier))
        return false;
    const int to = m_model.rowOf(id) + step;
    if (to >= 0 && to < m_model.rowCount())
        emit moved(id, to);
    return true;
}

void LedgerPanel::followDrag(const QMouseEvent& mouse) {
    if (mouse.type() == QEvent::MouseButtonPress) {
        m_dragging = false;
        m_pressed.reset();
        if (mouse.button() == Qt::LeftButton && m_model.page() == LedgerPage::Sources)
            m_pressed = mouse.pos();
    } else if (mouse.type() == QEvent::MouseMove && m_pressed && !m_dragging) {
        m_dragging = (mouse.pos() - *m_pressed).manhattanLength() >= QApplication::startDragDistance();
        if (m_dragging)
            m_table->viewport()->setCursor(Qt::ClosedHandCursor);
    } else if (mouse.type() == QEvent::MouseButtonRelease) {
        const bool dragged = std::exchange(m_dragging, false);
        const auto from = std::exchange(m_pressed, std::nullopt);
        m_table->viewport()->unsetCursor();
        if (!dragged || !from)
            return;
        const int row = m_table->rowAt(from->y());
        const int below = m_table->rowAt(mouse.pos().y());
        const int to = below >= 0 ? below : mouse.pos().y() < 0 ? 0 : m_model.rowCount() - 1;
        if (row >= 0 && row != to)
            if (const auto* source = std::get_if<model::SourceId>(&m_model.rowAt(row).key)) {
                const model::SourceId id = *source;
                emit moved(id, to);
            }
    }
}

bool LedgerPanel::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_table)
        return event->type() == QEvent::KeyPress ? followKey(*static_cast<QKeyEvent*>(event)) : false;
    if (event->type() == QEvent::MouseButtonPress || event->type() == QEvent::MouseMove ||
        event->type() == QEvent::MouseButtonRelease) {
        followDrag(*static_cast<QMouseEvent*>(event));
        // A drag moves the one row and does not choose those it passes.
        return m_dragging && event->type() == QEvent::MouseMove;
    }
    if (event->type() == QEvent::Resize)
        QTimer::singleShot(0, m_table, [this] {
            if (const int row = lastChosenRow(); row >= 0)
                m_table->scrollTo(m_model.index(row, 0));
        });
    return QWidget::eventFilter(watched, event);
}

void LedgerPanel::relabel() {
    m_count->setText(m_model.countWords());
    const bool none = m_model.rowCount() == 0;
    m_host->setVisible(!none);
    m_count->setVisible(!none);
    m_none->setVisible(none);
    switch (m_model.page()) {
    case LedgerPage::Fences:
        m_none->setText(tr("No fences yet. Draw one with a tool at the left, pick parcels, or import a fence set."));
        break;
    case LedgerPage::Sites:
        m_none->setText(tr("No sites yet. A site is what a fence protects: a nest, a school, a store. Mark one on the "
                           "map or import a list."));
        break;
    case LedgerPage::Homes:
        m_none->setText(tr("No home yet. Mark on the map where the aircraft starts and returns."));
        break;
    case LedgerPage::Sources:
        m_none->setText(tr("No imagery and no reference layer yet. Add them from the Sources menu."));
        break;
    }
}

} // namespace fencewright::desktop
