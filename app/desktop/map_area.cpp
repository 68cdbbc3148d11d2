#include "desktop/map_area.h"

#include "desktop/panels/message_bar.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kMargin = 16;
constexpr int kWidestMessage = 720;

} // namespace

MapArea::MapArea(QWidget* parent) : QWidget{parent}, m_messages{new MessageBar{this}} {
    setObjectName("mapArea");
    setAttribute(Qt::WA_StyledBackground);
    connect(m_messages, &MessageBar::resized, this, &MapArea::arrange);
}

void MapArea::setMap(QWidget* map) {
    m_map = map;
    map->setParent(this);
    map->lower();
    arrange();
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
}

} // namespace fencewright::desktop
