#include "desktop/map_area.h"

#include "desktop/panels/message_bar.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr int kMargin = 16;
constexpr int kWidestMessage = 720;
constexpr int kScaleBarRoom = 240; ///< at the lower left, where the map draws its scale

} // namespace

MapArea::MapArea(QWidget* parent) : QWidget{parent}, m_messages{new MessageBar{this}}, m_hint{new QLabel{this}} {
    setObjectName("mapArea");
    setAttribute(Qt::WA_StyledBackground);
    m_hint->setObjectName("mapHint");
    m_hint->setContentsMargins(12, 7, 12, 7);
    m_hint->setTextFormat(Qt::PlainText);
    m_hint->setAttribute(Qt::WA_TransparentForMouseEvents);
    m_hint->hide();
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
    page->installEventFilter(this);
    arrange();
}

void MapArea::showHint(const QString& words) {
    m_hint->setText(words);
    m_hint->setVisible(!words.isEmpty() && !(m_page && m_page->isVisible()));
    arrange();
}

void MapArea::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    arrange();
}

bool MapArea::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_page && (event->type() == QEvent::Show || event->type() == QEvent::Hide)) {
        m_hint->setVisible(!m_hint->text().isEmpty() && event->type() == QEvent::Hide);
        arrange();
    }
    return QWidget::eventFilter(watched, event);
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
    // Beside the scale where there is room, above it where there is not.
    const int hintRoom = width() - 2 * kScaleBarRoom;
    m_hint->setWordWrap(m_hint->text().size() > 60 && hintRoom < 560);
    const int wanted = m_hint->wordWrap() ? std::max(320, hintRoom) : m_hint->sizeHint().width();
    const int hintWidth = std::min({wanted, room, width() - kScaleBarRoom - kMargin});
    const int hintHeight = m_hint->wordWrap() ? m_hint->heightForWidth(hintWidth) : m_hint->sizeHint().height();
    const int x = std::max((width() - hintWidth) / 2, std::min(kScaleBarRoom, width() - hintWidth - kMargin));
    m_hint->setGeometry(x, height() - hintHeight - kMargin, hintWidth, hintHeight);
    m_messages->raise();
}

} // namespace fencewright::desktop
