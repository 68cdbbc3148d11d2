#include "desktop/panels/edits_panel.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kRowHeight = 24;
constexpr int kMarkRoom = 22;

} // namespace

/// Row n is the state after n steps.
class EditsPanel::Model : public QAbstractListModel {
public:
    Model(session::OpenDocument& document, QObject* parent) : QAbstractListModel{parent}, m_document{document} {}

    int now() const { return m_document.undoStack().index(); }
    int saved() const { return m_document.path().isEmpty() ? -1 : m_document.undoStack().cleanIndex(); }
    void follow() {
        const int count = m_document.undoStack().count() + 1;
        if (count > m_count) {
            beginInsertRows({}, m_count, count - 1);
            m_count = count;
            endInsertRows();
        } else if (count < m_count) {
            beginRemoveRows({}, count, m_count - 1);
            m_count = count;
            endRemoveRows();
        }
        // A step done after others were taken back stands in the place of one of them.
        emit dataChanged(index(0), index(m_count - 1));
    }

    int rowCount(const QModelIndex& parent) const override { return parent.isValid() ? 0 : m_count; }
    QVariant data(const QModelIndex& index, int role) const override {
        const int row = index.row();
        if (role == Qt::DisplayRole || role == Qt::ToolTipRole)
            return title(row);
        if (role != Qt::AccessibleTextRole)
            return {};
        QStringList words{title(row)};
        if (row == now())
            words << EditsPanel::tr("now");
        if (row == saved())
            words << EditsPanel::tr("saved");
        if (row > now())
            words << EditsPanel::tr("taken back");
        return words.join(", ");
    }

private:
    QString title(int row) const {
        if (row == 0)
            return m_document.path().isEmpty() ? EditsPanel::tr("The beginning") : EditsPanel::tr("As opened");
        const QString words = m_document.undoStack().text(row - 1);
        return words.isEmpty() ? EditsPanel::tr("Edit") : words;
    }

    session::OpenDocument& m_document;
    int m_count = 1;
};

class EditsPanel::RowDelegate : public QStyledItemDelegate {
public:
    RowDelegate(const Model& model, Appearance& appearance, QObject* parent)
        : QStyledItemDelegate{parent}, m_model{model}, m_appearance{appearance} {}

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const Palette& palette = m_appearance.palette();
        const bool now = index.row() == m_model.now();
        painter->save();
        painter->setRenderHint(QPainter::Antialiasing);
        if (now)
            painter->fillRect(option.rect, palette.selection);
        else if (option.state & QStyle::State_MouseOver)
            painter->fillRect(option.rect, palette.ground);
        if ((option.state & QStyle::State_HasFocus) && (option.state & QStyle::State_Selected)) {
            painter->setPen(QPen{palette.accent, 1.5});
            painter->setBrush(Qt::NoBrush);
            painter->drawRect(QRectF{option.rect}.adjusted(1, 1, -1, -1));
        }
        QRect box = option.rect.adjusted(6, 0, -6, 0);
        if (now) {
            // The place where the work stands: an arrow head, not a colour alone.
            const double y = box.center().y() + 0.5;
            painter->setPen(Qt::NoPen);
            painter->setBrush(palette.accent);
            painter->drawPolygon(
                QPolygonF{{box.left() + 2.0, y - 5}, {box.left() + 10.0, y}, {box.left() + 2.0, y + 5}});
        }
        box.setLeft(box.left() + kMarkRoom - 6);
        QFont font = option.font;
        font.setPixelSize(kSmallType);
        if (index.row() == m_model.saved()) {
            painter->setFont(font);
            painter->setPen(palette.quietText);
            const QString words = EditsPanel::tr("saved");
            painter->drawText(box, Qt::AlignRight | Qt::AlignVCenter, words);
            box.setRight(box.right() - QFontMetrics{font}.horizontalAdvance(words) - 10);
        }
        font.setPixelSize(kPlainType);
        font.setWeight(now ? QFont::DemiBold : QFont::Normal);
        font.setItalic(index.row() > m_model.now());
        painter->setFont(font);
        painter->setPen(index.row() > m_model.now() ? palette.quietText : palette.text);
        painter->drawText(box, Qt::AlignLeft | Qt::AlignVCenter | Qt::TextSingleLine,
                          QFontMetrics{font}.elidedText(index.data().toString(), Qt::ElideRight, box.width()));
        painter->restore();
    }
    QSize sizeHint(const QStyleOptionViewItem&, const QModelIndex&) const override { return {120, kRowHeight}; }

private:
    const Model& m_model;
    Appearance& m_appearance;
};

EditsPanel::EditsPanel(session::OpenDocument& document, Appearance& appearance, QWidget* parent)
    : QWidget{parent}, m_document{document}, m_model{new Model{document, this}}, m_list{new QListView{this}} {
    setObjectName("editsPanel");
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(12, 4, 12, 8);
    m_list->setObjectName("editsList");
    m_list->setAccessibleName(tr("List of edits"));
    m_list->setAccessibleDescription(tr("Enter goes back, or forward, to the marked step."));
    m_list->setModel(m_model);
    m_list->setItemDelegate(new RowDelegate{*m_model, appearance, m_list});
    m_list->setUniformItemSizes(true);
    m_list->setMouseTracking(true);
    m_list->setFrameShape(QFrame::NoFrame);
    m_list->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_list->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    column->addWidget(m_list);
    const auto go = [this](const QModelIndex& at) { m_document.goToStep(at.row()); };
    connect(m_list, &QListView::clicked, this, go);
    connect(m_list, &QListView::activated, this, go);
    QUndoStack& stack = document.undoStack();
    connect(&stack, &QUndoStack::indexChanged, this, &EditsPanel::showNow);
    connect(&stack, &QUndoStack::cleanChanged, this, &EditsPanel::showNow);
    connect(&document, &session::OpenDocument::stateChanged, m_list->viewport(), qOverload<>(&QWidget::update));
    connect(&appearance, &Appearance::changed, m_list->viewport(), qOverload<>(&QWidget::update));
    showNow();
}

void EditsPanel::showNow() {
    m_model->follow();
    const QModelIndex now = m_model->index(m_model->now());
    m_list->setCurrentIndex(now);
    m_list->scrollTo(now);
}

} // namespace fencewright::desktop
