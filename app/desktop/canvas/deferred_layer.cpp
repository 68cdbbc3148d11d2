#include "desktop/canvas/deferred_layer.h"

#include "desktop/canvas/picture_window.h"
#include "session/quiet_thread.h"
#include "session/translated.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <utility>

namespace fencewright::desktop {
namespace {

constexpr double kMarginPixels = 256.0;
constexpr double kOffPixel = 0.02; // more, and lines painted now would not meet those painted before

bool sameFrame(const ViewTransform& a, const ViewTransform& b) {
    return a.planeNumber() == b.planeNumber() && a.metresPerPixel() == b.metresPerPixel();
}

/// The parts of the picture that a shift by so much has left without what was there.
std::vector<QRect> uncovered(const QSize& size, const QSize& had, const QPoint& by) {
    const QRect all{QPoint{}, size}, kept = QRect{by, had}.intersected(all);
    if (kept.isEmpty())
        return {all};
    std::vector<QRect> strips;
    const auto add = [&](const QRect& strip) {
        if (!strip.isEmpty())
            strips.push_back(strip);
    };
    add({0, 0, all.width(), kept.top()});
    add({0, kept.bottom() + 1, all.width(), all.bottom() - kept.bottom()});
    add({0, kept.top(), kept.left(), kept.height()});
    add({kept.right() + 1, kept.top(), all.right() - kept.right(), kept.height()});
    return strips;
}

} // namespace

DeferredLayer::DeferredLayer(QObject* parent) : QObject{parent} { m_pool.setMaxThreadCount(1); }

DeferredLayer::~DeferredLayer() {
    m_pool.clear();
    m_pool.waitForDone();
}

/// The view of a picture: of the same middle, wider by the margin on each side.
ViewTransform DeferredLayer::pictureView(const ViewTransform& view, double margin) const {
    ViewTransform wider = view;
    wider.setSize(view.size() + QSizeF{2.0 * margin, 2.0 * margin});
    return wider;
}

/// How far the picture moves to be the target's, in device pixels; nothing where it does not fit by moving.
std::optional<QPoint> DeferredLayer::shiftTo(const ViewTransform& target, qreal ratio) const {
    if (m_stale || !m_picture || !sameFrame(m_picture->view, target) || m_picture->image.devicePixelRatio() != ratio)
        return std::nullopt;
    const QPointF by = (target.toWidget({}) - m_picture->view.toWidget({})) * ratio;
    if (std::abs(by.x()) > 1e6 || std::abs(by.y()) > 1e6 || std::abs(by.x() - std::round(by.x())) > kOffPixel ||
        std::abs(by.y() - std::round(by.y())) > kOffPixel)
        return std::nullopt;
    return QPoint{int(std::round(by.x())), int(std::round(by.y()))};
}

QImage DeferredLayer::blank(const QSizeF& size, qreal ratio) {
    QImage image{(size * ratio).toSize(), QImage::Format_ARGB32_Premultiplied};
    image.setDevicePixelRatio(ratio);
    image.fill(Qt::transparent);
    return image;
}

QImage DeferredLayer::moved(const QImage& image, const QSize& size, const QPoint& by) {
    if (by.isNull() && size == image.size())
        return image;
    QImage result{size, QImage::Format_ARGB32_Premultiplied};
    result.fill(Qt::transparent);
    const QRect target = QRect{by, image.size()}.intersected(QRect{QPoint{}, size});
    const std::size_t bytes = std::size_t(std::max(0, target.width())) * 4;
    for (int y = target.top(); y <= target.bottom() && bytes > 0; ++y)
        std::copy_n(image.constScanLine(y - by.y()) + (target.left() - by.x()) * 4, bytes,
                    result.scanLine(y) + target.left() * 4);
    result.setDevicePixelRatio(image.devicePixelRatio());
    return result;
}

void DeferredLayer::renderInto(Picture& picture, const QRect& devicePixels, const Render& render) {
    const qreal ratio = picture.image.devicePixelRatio();
    const QRectF widget{QPointF{devicePixels.topLeft()} / ratio, QSizeF{devicePixels.size()} / ratio};
    QPainter painter{&picture.image};
    painter.setClipRect(widget);
    painter.setCompositionMode(QPainter::CompositionMode_Source);
    painter.fillRect(widget, Qt::transparent);
    painter.setCompositionMode(QPainter::CompositionMode_SourceOver);
    render(painter, picture.view, widget);
    painter.end();
    picture.inked.look(picture.image, devicePixels.adjusted(-1, -1, 1, 1)); // the clip may round outward
}

/// What has changed in the plane, in device pixels of a picture of that view.
std::vector<QRect> DeferredLayer::changedPixels(const ViewTransform& view, qreal ratio) const {
    std::vector<QRect> pixels;
    const QRectF all{QPointF{}, view.size()};
    for (const QRectF& plane : m_changed) {
        const QRectF widget =
            QRectF{view.toWidget(plane.topLeft()), view.toWidget(plane.bottomRight())}.normalized().intersected(all);
        if (!widget.isEmpty())
            pixels.push_back(QRectF{widget.topLeft() * ratio, widget.size() * ratio}.toAlignedRect().intersected(
                QRectF{QPointF{}, view.size() * ratio}.toAlignedRect()));
    }
    // Many small ones cost more than one that holds them.
    constexpr std::size_t many = 24;
    if (pixels.size() > many) {
        QRect one;
        for (const QRect& rect : pixels)
            one = one.united(rect);
        pixels = {one};
    }
    return pixels;
}

void DeferredLayer::paint(QPainter& painter, const ViewTransform& view, const Contents& contents, bool inMotion) {
    const qreal ratio = painter.device()->devicePixelRatioF();
    const auto cost = [&](const ViewTransform& frame, const std::vector<QRect>& pixels) {
        double sum = 0.0;
        for (const QRect& rect : pixels) {
            // The estimate is asked in the coordinates of the view.
            const QPointF off = view.toWidget({}) - frame.toWidget({});
            sum += contents.cost(QRectF{QPointF{rect.topLeft()} / ratio + off, QSizeF{rect.size()} / ratio});
        }
        return sum;
    };
    const std::optional<QPoint> toView = shiftTo(view, ratio);
    m_settled = false;
    if (!toView) {
        const QRectF all{QPointF{}, view.size()};
        const double price = contents.cost(all);
        const double room = kMarginPixels;
        if (price == 0.0 && contents.cost(all.adjusted(-room, -room, room, room)) == 0.0) {
            // There is nothing to show, far and wide: no picture, which takes time even where it is blank.
            m_picture.reset();
            m_changed.clear();
            m_sinceStarted.clear();
            ++m_started;
            m_settled = true;
            return;
        }
        // Without anything to show meanwhile, or with little to paint, at once.
        if (price <= kAffordableMoving) {
            // The former picture's memory, where it will do: what is fresh of the system's costs as much as painting.
            const bool fits = m_picture && m_picture->image.size() == (view.size() * ratio).toSize();
            Picture fresh{fits ? std::move(m_picture->image) : blank(view.size(), ratio), view,
                          view.earthAt(all.center())};
            fresh.image.setDevicePixelRatio(ratio);
            renderInto(fresh, fresh.image.rect(), contents.here);
            m_picture = std::move(fresh);
            m_changed.clear();
            m_sinceStarted.clear();
            m_stale = false;
            ++m_started; // what is being painted elsewhere is not wanted any more
            m_settled = true;
        } else if (!inMotion) {
            startElsewhere(pictureView(view, kMarginPixels), ratio, contents);
        }
        return show(painter, view);
    }

    // What of the view the picture does not show, and what has changed in it.
    const QSize viewPixels = (view.size() * ratio).toSize();
    const QRect seen{-*toView, viewPixels}; // in the picture
    const bool outside = !m_picture->image.rect().contains(seen);
    const std::vector<QRect> changed = changedPixels(m_picture->view, ratio);
    std::vector<QRect> changedSeen;
    for (const QRect& rect : changed)
        if (const QRect part = rect.intersected(seen); !part.isEmpty())
            changedSeen.push_back(part);
    if (outside) {
        // The picture grows to the view, and in the direction of the way.
        const std::vector<QRect> strips = uncovered(viewPixels, m_picture->image.size(), *toView);
        if (cost(view, strips) <= kAffordableMoving && cost(m_picture->view, changedSeen) <= kAffordable) {
            Picture grown{moved(m_picture->image, viewPixels, *toView), view,
                          view.earthAt(QRectF{QPointF{}, view.size()}.center())};
            grown.inked.look(grown.image, grown.image.rect());
            for (const QRect& strip : strips)
                renderInto(grown, strip, contents.here);
            for (const QRect& rect : changedSeen)
                renderInto(grown, rect.translated(*toView), contents.here);
            m_picture = std::move(grown);
            m_sinceStarted.insert(m_sinceStarted.end(), m_changed.begin(), m_changed.end());
            m_changed.clear();
            m_settled = true;
        } else if (!inMotion) {
            startElsewhere(pictureView(view, kMarginPixels), ratio, contents);
        }
    } else if (!m_changed.empty()) {
        if (cost(m_picture->view, changed) <= kAffordable) {
            for (const QRect& rect : changed)
                renderInto(*m_picture, rect, contents.here);
            m_sinceStarted.insert(m_sinceStarted.end(), m_changed.begin(), m_changed.end());
            m_changed.clear();
            m_settled = true;
        } else if (!inMotion) {
            startElsewhere(m_picture->view, ratio, contents);
        }
    } else {
        m_settled = true;
    }
    // Near the end of the picture, the next is begun before it is needed.
    if (m_settled && !m_running && !inMotion && m_picture->image.size() != viewPixels) {
        const int ahead = int(kMarginPixels * ratio / 2.0);
        const QRect room = m_picture->image.rect().adjusted(ahead, ahead, -ahead, -ahead);
        if (!room.contains(seen))
            startElsewhere(pictureView(view, kMarginPixels), ratio, contents);
    }
    m_settled = m_settled && !m_running;
    show(painter, view);
}

/// The picture moved or stretched to the view.
void DeferredLayer::show(QPainter& painter, const ViewTransform& view) const {
    if (!m_picture)
        return;
    const QImage& image = m_picture->image;
    const QSizeF size = image.deviceIndependentSize();
    const QPointF half{size.width() / 2.0, size.height() / 2.0};
    if (sameFrame(m_picture->view, view)) {
        const qreal ratio = image.devicePixelRatio();
        const QPointF at = (view.toWidget({}) - m_picture->view.toWidget({})) * ratio;
        const QPointF upperLeft{std::round(at.x()), std::round(at.y())};
        for (const QRect& part : m_picture->inked.rectangles())
            painter.drawImage((upperLeft + part.topLeft()) / ratio, windowOf(image, part, image.format()));
        return;
    }
    if (m_picture->view.plane().definition().upAzimuthDegrees != view.plane().definition().upAzimuthDegrees)
        return;
    const std::optional<QPointF> middle = m_picture->view.planeNumber() == view.planeNumber()
                                              ? std::optional{view.toWidget(m_picture->view.toPlane(half))}
                                              : view.widgetOf(m_picture->middle);
    if (!middle)
        return;
    const double scale = m_picture->view.metresPerPixel() / view.metresPerPixel();
    constexpr double farthest = 64.0; // beyond it a picture says nothing
    if (scale > farthest || scale < 1.0 / farthest)
        return;
    // Of the picture, what is seen: drawing all of one stretched far would take long.
    const QRectF target{*middle - half * scale, size * scale};
    const QRectF seen = target.intersected(QRectF{QPointF{}, view.size()});
    if (seen.isEmpty())
        return;
    const QRectF source{(seen.topLeft() - target.topLeft()) / scale * image.devicePixelRatio(),
                        seen.size() / scale * image.devicePixelRatio()};
    painter.drawImage(seen, image, source);
}

/// Paints a picture of the target on the other thread, out of what can be had from the present one. One at a time: what
/// changes meanwhile is painted when it is there.
void DeferredLayer::startElsewhere(const ViewTransform& target, qreal ratio, const Contents& contents) {
    if (m_running)
        return;
    m_running = true;
    const QSize size = (target.size() * ratio).toSize();
    const std::optional<QPoint> shift = shiftTo(target, ratio);
    std::vector<QRect> rects =
        shift ? uncovered(size, m_picture->image.size(), *shift) : std::vector<QRect>{QRect{QPoint{}, size}};
    if (shift)
        for (const QRect& rect : changedPixels(target, ratio))
            rects.push_back(rect);
    Picture picture{shift ? m_picture->image : QImage{}, target,
                    target.earthAt({target.size().width() / 2.0, target.size().height() / 2.0})};
    m_changed.clear();
    m_sinceStarted.clear();
    m_stale = false;
    const std::uint64_t number = ++m_started;
    m_pool.start([this, number, picture = std::move(picture), rects = std::move(rects), size, ratio, shift,
                  render = contents.elsewhere()]() mutable {
        session::comeAfterTheWindow();
        picture.image = shift ? moved(picture.image, size, *shift) : blank(picture.view.size(), ratio);
        picture.inked.look(picture.image, picture.image.rect());
        for (const QRect& rect : rects)
            renderInto(picture, rect, render);
        auto made = std::make_shared<Picture>(std::move(picture));
        QMetaObject::invokeMethod(
            this,
            [this, number, made] {
                m_running = false;
                if (number == m_started) {
                    m_picture = std::move(*made);
                    // What was painted into the former meanwhile is not in this one.
                    m_changed.insert(m_changed.end(), m_sinceStarted.begin(), m_sinceStarted.end());
                    m_sinceStarted.clear();
                }
                emit arrived();
            },
            Qt::QueuedConnection);
    });
}

} // namespace fencewright::desktop
