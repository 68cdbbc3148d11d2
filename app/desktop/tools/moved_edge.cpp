#include "desktop/tools/moved_edge.h"

#include "fault.h"
#include "geodesy/local_frame.h"

#include <QCoreApplication>

#include <cmath>

namespace fencewright::desktop {
namespace {

using geodesy::PlanePoint;

/// The edge in the plane around its middle, with the direction outward.
struct PlaneEdge {
    geodesy::LocalFrame frame;
    PlanePoint a, b;
    PlanePoint outward; ///< of length 1

    PlaneEdge(const model::Fence& fence, const EdgeEnds& ends)
        : frame{{(ends.a.lon + ends.b.lon) / 2.0, (ends.a.lat + ends.b.lat) / 2.0}}, a{frame.toPlane(ends.a)},
          b{frame.toPlane(ends.b)} {
        const double length = std::hypot(b.x - a.x, b.y - a.y);
        if (!(length > 0.0))
            throw Fault{phrase("core", "An edge without length has no side to be moved to."), "",
                        phrase("core", "Move one of its corners.")};
        outward = {(b.y - a.y) / length, (a.x - b.x) / length}; // to the right
        if (ends.closed && !runsCounterclockwise(fence, ends.from))
            outward = {-outward.x, -outward.y};
    }

    static bool runsCounterclockwise(const model::Fence& fence, const Corner& corner) {
        const model::LineString& ring = *editableLines(fence.shape)[corner.line].corners;
        const model::Position& first = ring.front();
        double twiceArea = 0.0;
        for (std::size_t i = 1; i + 1 < ring.size(); ++i)
            twiceArea += (ring[i].lon - first.lon) * (ring[i + 1].lat - first.lat) -
                         (ring[i + 1].lon - first.lon) * (ring[i].lat - first.lat);
        return twiceArea > 0.0;
    }
};

QString words(const char* text) { return QCoreApplication::translate("MovedEdge", text); }

} // namespace

MovedEdge movedEdge(const model::Fence& fence, const EdgeEnds& ends, Length outward) {
    if (outward == Length{})
        return {ends.a, ends.b};
    const PlaneEdge edge{fence, ends};
    const double way = outward.inMetres();
    const auto moved = [&](const PlanePoint& point) {
        return edge.frame.toEarth(PlanePoint{point.x + edge.outward.x * way, point.y + edge.outward.y * way});
    };
    return {moved(edge.a), moved(edge.b)};
}

Length outwardTo(const model::Fence& fence, const EdgeEnds& ends, const model::Position& place) {
    const PlaneEdge edge{fence, ends};
    const PlanePoint point = edge.frame.toPlane(place);
    return Length::metres((point.x - edge.a.x) * edge.outward.x + (point.y - edge.a.y) * edge.outward.y);
}

QString outwardWords(Length outward, bool closed, units::System units) {
    const bool isPositive = outward >= Length{};
    const QString way = QString::fromStdString(units::formatLength(isPositive ? outward : -outward, units));
    const char* pattern =
        closed ? isPositive ? QT_TRANSLATE_NOOP("MovedEdge", "%1 outward") : QT_TRANSLATE_NOOP("MovedEdge", "%1 inward")
        : isPositive ? QT_TRANSLATE_NOOP("MovedEdge", "%1 to the right")
                     : QT_TRANSLATE_NOOP("MovedEdge", "%1 to the left");
    return words(pattern).arg(way);
}

Length parseOutward(std::string_view text, units::System unitless, Length towards) {
    QString typed = QString::fromUtf8(text.data(), qsizetype(text.size())).trimmed();
    double sign = towards < Length{} ? -1.0 : 1.0;
    if (typed.startsWith('-') || typed.startsWith('+') || typed.startsWith(QChar{0x2212})) {
        sign = typed.startsWith('+') ? 1.0 : -1.0;
        typed = typed.mid(1).trimmed();
    }
    const auto takes = [&](const char* word, double meant) {
        for (const QString& one : {QString{word}, words(word)})
            if (typed.endsWith(' ' + one, Qt::CaseInsensitive)) {
                typed.chop(one.size() + 1);
                sign = meant;
                return true;
            }
        return false;
    };
    (void)(takes(QT_TRANSLATE_NOOP("MovedEdge", "outward"), 1.0) ||
           takes(QT_TRANSLATE_NOOP("MovedEdge", "inward"), -1.0) ||
           takes(QT_TRANSLATE_NOOP("MovedEdge", "right"), 1.0) || takes(QT_TRANSLATE_NOOP("MovedEdge", "left"), -1.0));
    return units::parseLength(typed.toStdString(), unitless).length * sign;
}

} // namespace fencewright::desktop
