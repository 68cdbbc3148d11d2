#include "desktop/panels/command_search.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr std::size_t kMostHits = 12;

enum Part { Aside = Qt::UserRole, Key };

/// The words, and at the right, quietly, what it is and its key.
class HitDelegate : public QStyledItemDelegate {
public:
    using QStyledItemDelegate::QStyledItemDelegate;

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        painter->save();
        const QPalette& palette = option.palette;
        if (option.state & QStyle::State_Selected) {
            painter->fillRect(option.rect, palette.color(QPalette::Midlight));
            painter->fillRect(QRect{option.rect.topLeft(), QSize{3, option.rect.height()}},
                              palette.color(QPalette::Highlight));
        }
        const QRect box = option.rect.adjusted(10, 0, -10, 0);
        const QString key = index.data(Key).toString();
        QString aside = index.data(Aside).toString();
        painter->setFont(option.font);
        painter->setPen(palette.color(QPalette::Text));
        const int keyWidth = key.isEmpty() ? 0 : option.fontMetrics.horizontalAdvance(key) + 12;
        painter->drawText(box, Qt::AlignRight | Qt::AlignVCenter, key);
        const int words = option.fontMetrics.horizontalAdvance(index.data().toString()) + 16;
        painter->drawText(
            box.adjusted(0, 0, -keyWidth, 0), Qt::AlignLeft | Qt::AlignVCenter,
            option.fontMetrics.elidedText(index.data().toString(), Qt::ElideRight, box.width() - keyWidth));
        painter->setPen(palette.color(QPalette::PlaceholderText));
        const int room = box.width() - keyWidth - words;
        if (room > 24)
            painter->drawText(box.adjusted(words, 0, -keyWidth, 0), Qt::AlignRight | Qt::AlignVCenter,
                              option.fontMetrics.elidedText(aside, Qt::ElideRight, room));
        painter->restore();
    }
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex&) const override {
        return {200, std::max(28, option.fontMetrics.height() + 10)};
    }
};

} // namespace

CommandSearch::CommandSearch(QWidget* parent) : QLineEdit{parent} {
    setObjectName("commandSearch");
    setPlaceholderText(tr("Command, place, name or parcel"));
    setTextMargins(0, 0, 48, 0);
    setAccessibleName(tr("Search"));
    setAccessibleDescription(tr("Type a command, a coordinate, a date, a name or a parcel number; Enter takes the "
                                "marked line."));
    setToolTip(tr("A command, a coordinate in any notation, a date, a fence or site, a parcel number, or any column "
                  "of a reference layer: “owner: mill”"));
    connect(this, &QLineEdit::textEdited, this, &CommandSearch::offer);
}

QStringList CommandSearch::offered() const {
    QStringList words;
    if (m_list && m_list->isVisible())
        for (const SearchHit& hit : m_hits)
            words << hit.words;
    return words;
}

void CommandSearch::offer() {
    if (!m_list) {
        // A child of the window, not a window of its own: the focus stays in the field.
        m_list = new QListWidget{window()};
        m_list->setObjectName("commandResults");
        m_list->setFocusPolicy(Qt::NoFocus);
        m_list->setItemDelegate(new HitDelegate{m_list});
        m_list->setAccessibleName(tr("Found"));
        m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
        m_list->hide();
        connect(m_list, &QListWidget::itemClicked, this, [this](QListWidgetItem* item) { take(m_list->row(item)); });
    }
    m_hits.clear();
    m_list->clear();
    const QString typed = text().trimmed();
    if (typed.isEmpty()) {
        m_hits = m_idle ? m_idle() : std::vector<SearchHit>{};
        if (m_hits.empty()) {
            m_list->hide();
            return;
        }
    } else {
        for (const Provider& provider : m_providers)
            for (SearchHit& hit : provider(typed))
                if (m_hits.size() < kMostHits)
                    m_hits.push_back(std::move(hit));
    }
    for (const SearchHit& hit : m_hits) {
        auto* item = new QListWidgetItem{hit.words, m_list};
        item->setData(Aside, hit.aside);
        item->setData(Key, hit.key);
        item->setData(Qt::AccessibleTextRole, QStringList{hit.words, hit.aside, hit.key}.join(", "));
    }
    if (m_hits.empty()) {
        m_list->addItem(tr("Nothing of that name. Try “deliver” or “46.2 -8.7”."));
        m_list->item(0)->setFlags(Qt::NoItemFlags);
    } else {
        m_list->setCurrentRow(0);
    }
    place();
    m_list->show();
    m_list->raise();
}

void CommandSearch::begin() {
    setFocus(Qt::ShortcutFocusReason);
    selectAll();
    if (text().isEmpty())
        offer();
}

void CommandSearch::showKey(const QString& key) {
    m_key = key;
    update();
}

void CommandSearch::place() {
    const QPoint corner = mapTo(window(), QPoint{0, height() + 4});
    const int rows = m_list->count();
    const int rowHeight = std::max(24, m_list->sizeHintForRow(0));
    const int width = std::max(this->width(), 480);
    m_list->setGeometry(std::min(corner.x(), window()->width() - width - 8), corner.y(), width, rows * rowHeight + 8);
}

void CommandSearch::take(int row) {
    if (row < 0 || std::size_t(row) >= m_hits.size())
        return;
    const auto act = m_hits[std::size_t(row)].act;
    clear();
    m_list->hide();
    clearFocus();
    act();
}

void CommandSearch::keyPressEvent(QKeyEvent* event) {
    const bool open = m_list && m_list->isVisible() && !m_hits.empty();
    switch (event->key()) {
    case Qt::Key_Down:
    case Qt::Key_Up:
        if (open) {
            const int step = event->key() == Qt::Key_Down ? 1 : -1;
            m_list->setCurrentRow(std::clamp(m_list->currentRow() + step, 0, m_list->count() - 1));
        }
        return;
    case Qt::Key_Return:
    case Qt::Key_Enter:
        if (open)
            take(m_list->currentRow());
        return;
    case Qt::Key_Escape:
        clear();
        if (m_list)
            m_list->hide();
        clearFocus();
        return;
    default:
        QLineEdit::keyPressEvent(event);
    }
}

void CommandSearch::focusOutEvent(QFocusEvent* event) {
    QLineEdit::focusOutEvent(event);
    if (m_list && !m_list->underMouse())
        m_list->hide();
}

void CommandSearch::paintEvent(QPaintEvent* event) {
    QLineEdit::paintEvent(event);
    if (hasFocus() || !text().isEmpty())
        return;
    QPainter painter{this};
    QFont small = font();
    small.setPixelSize(11);
    painter.setFont(small);
    painter.setPen(palette().color(QPalette::PlaceholderText));
    painter.drawText(rect().adjusted(0, 0, -10, 0), Qt::AlignRight | Qt::AlignVCenter, m_key);
}

} // namespace fencewright::desktop
