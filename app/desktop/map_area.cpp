#include "desktop/map_area.h"

#include "desktop/canvas/map_furniture.h"
#include "desktop/panels/message_bar.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kMargin = 16;
constexpr int kWidestMessage = 720;
constexpr int kWidestHint = 640;
constexpr int kScaleRoom = kScaleBarRoom + 8; // at the foot on the left, where the scale bar is
constexpr int kFoot = 12;                     // as far up as the scale bar

} // namespace

MapArea::MapArea(QWidget* parent) : QWidget{parent}, m_messages{new MessageBar{this}}, m_hint{new QLabel{this}} {
    setObjectName("mapArea");
    setAttribute(Qt::WA_StyledBackground);
    m_hint->setObjectName("mapHint");
    m_hint->setWordWrap(true);
    m_hint->setTextFormat(Qt::PlainText);
    m_hint->setAlignment(Qt::AlignCenter);
    m_hint->setAttribute(Qt::WA_TransparentForMouseEvents);
    m_hint->hide();
    connect(m_messages, &MessageBar::resized, this, &MapArea::arrange);
}

void MapArea::setMap(QWidget* map) {
    m_map = map;
    map->setParent(this);
    map->lower();
    map->installEventFilter(this);
    arrange();
}

void MapArea::showHint(const QString& hint) {
    m_hint->setText(hint);
    arrangeHint();
}

void MapArea::setStartPage(QWidget* page) {
    m_page = page;
    page->setParent(this);
    arrange();
}

void MapArea::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

bool MapArea::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_map && event->type() == QEvent::MouseMove)
        m_hint->setVisible(!m_hint->text().isEmpty() &&
                           !m_hint->geometry().contains(static_cast<QMouseEvent*>(event)->pos()));
    return QWidget::eventFilter(watched, event);
}

/// In the middle of the foot, but never over the scale bar.
void MapArea::arrangeHint() {
    const int room = width() - kScaleRoom - kMargin;
    const QString words = m_hint->text();
    if (words.isEmpty() || room < 160) {
        m_hint->hide();
        return;
    }
    const int across = m_hint->fontMetrics().horizontalAdvance(words) + 2 * kMargin;
    // Lines of about the same length read better than a long one and a word.
    const int lines = (across - 1) / std::min(room, kWidestHint) + 1;
    const int hintWidth = std::min({room, kWidestHint, across / lines + (lines > 1 ? 3 * kMargin : 0)});
    const int hintHeight = std::max(28, m_hint->heightForWidth(hintWidth));
    const int left = std::max(kScaleRoom, (width() - hintWidth) / 2);
    m_hint->setGeometry(std::min(left, width() - kMargin - hintWidth), height() - kFoot - hintHeight, hintWidth,
                        hintHeight);
    m_hint->setVisible(!m_map || !m_hint->geometry().contains(m_map->mapFromGlobal(QCursor::pos())));
}

void MapArea::arrange() {
    if (m_map)
        m_map->setGeometry(rect());
    const int room = width() - 2 * kMargin;
    if (m_page) {
        const QSize size = m_page->sizeHint().boundedTo({room, height() - 2 * kMargin});
        m_page->setGeometry(QRect{QPoint{(width() - size.width()) / 2, (height() - size.height()) / 2}, size});
    }
    const int messageWidth = std::min(room, kWidestMessage);
    const int messageHeight = std::max(m_messages->sizeHint().height(), m_messages->heightForWidth(messageWidth));
    m_messages->setGeometry((width() - messageWidth) / 2, kMargin, messageWidth, messageHeight);
    m_messages->raise();
    arrangeHint();
}

} // namespace fencewright::desktop
