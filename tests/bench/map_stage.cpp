#include "bench/map_stage.h"

#include "raster/dataset.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QMouseEvent>
#include <QPainter>
#include <QThread>
#include <QWheelEvent>

#include <stdexcept>

namespace fencewright::bench {

namespace {

constexpr int kSampled = 40; // places across the picture at which two pictures are compared

std::vector<QRgb> samplesOf(const QImage& picture) {
    std::vector<QRgb> samples;
    for (int y = 0; y < kSampled; ++y)
        for (int x = 0; x < kSampled; ++x)
            samples.push_back(picture.pixel((2 * x + 1) * picture.width() / (2 * kSampled),
                                            (2 * y + 1) * picture.height() / (2 * kSampled)));
    return samples;
}

/// Nearly everywhere the same colour, but for what a coarser picture of the same thing leaves out.
bool alike(const std::vector<QRgb>& one, const std::vector<QRgb>& other) {
    constexpr int far = 60;
    std::size_t same = 0;
    for (std::size_t i = 0; i < one.size(); ++i)
        same += std::abs(qRed(one[i]) - qRed(other[i])) < far && std::abs(qGreen(one[i]) - qGreen(other[i])) < far &&
                std::abs(qBlue(one[i]) - qBlue(other[i])) < far;
    return same >= one.size() * 19 / 20;
}

} // namespace

MapStage::MapStage(const std::filesystem::path& cache)
    : m_settings{m_folder.filePath("settings.ini")}, m_audit{m_document, m_jobs},
      m_sources{m_document, m_jobs, QStringLiteral(FENCEWRIGHT_BUILD "/bin/fencewright-cli"),
                QString::fromStdString((cache / "layers").string()),
                QString::fromStdString((cache / "pyramids").string())},
      m_map{m_document, m_outlines, m_audit, m_sources, m_settings}, m_picture{1920, 1080, QImage::Format_RGB32} {
    m_jobs.prepareThreads(raster::prepareThread); // as the program does
    m_map.prepareThreads(raster::prepareThread);
    // Painted into a picture only: a screen would take its own time.
    m_map.setAttribute(Qt::WA_DontShowOnScreen);
    m_map.resize(m_picture.size());
    m_map.installEventFilter(this);
    m_map.show();
}

MapStage::~MapStage() { m_map.removeEventFilter(this); }

bool MapStage::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Paint && !m_painting) {
        m_wantsPainting = true;
        return true;
    }
    return QObject::eventFilter(watched, event);
}

void MapStage::addSource(model::SourceKind kind, const std::filesystem::path& path) {
    model::Source source;
    source.id = model::freshId<model::Source>();
    source.kind = kind;
    source.name = path.stem().string();
    source.path = std::filesystem::absolute(path).string();
    if (kind == model::SourceKind::Reference)
        source.numberField = "number";
    m_document.push(model::addSource(m_document.set(), source));
}

void MapStage::addImagery(const std::filesystem::path& path) { addSource(model::SourceKind::Imagery, path); }
void MapStage::addParcels(const std::filesystem::path& path) { addSource(model::SourceKind::Reference, path); }

void MapStage::addFences(const model::FenceSet& fences) {
    model::FenceSet set = m_document.set();
    set.fences = fences.fences;
    set.margin = fences.margin;
    m_document.take(std::move(set), {}, false);
}

void MapStage::paint() {
    m_painting = true;
    m_map.render(&m_picture, {}, {}, {});
    m_painting = false;
    m_wantsPainting = false;
}

void MapStage::breathe() { QApplication::processEvents(); }

void MapStage::settle() {
    QElapsedTimer since, still;
    since.start();
    QImage before;
    while (since.elapsed() < 60'000) {
        breathe();
        paint();
        const bool busy = !m_jobs.running().empty() || !m_audit.isCurrent();
        if (busy || m_picture != before) {
            before = m_picture.copy();
            still.start();
        } else if (still.elapsed() > 600) {
            return;
        }
        QThread::msleep(15);
    }
    throw std::runtime_error{"the picture is not complete after a minute"};
}

void MapStage::rest() {
    QElapsedTimer since;
    since.start();
    while (since.elapsed() < 300) {
        breathe();
        QThread::msleep(10);
    }
    paint();
}

MapStage::Arrival MapStage::watch() {
    QElapsedTimer since, still;
    since.start();
    still.start();
    struct Seen {
        double at;
        std::vector<QRgb> samples;
    };
    std::vector<Seen> seen;
    Arrival arrival;
    QImage before;
    const auto now = [&] { return double(since.nsecsElapsed()) / 1e6; };
    while (still.elapsed() < 1000) {
        if (since.elapsed() > 120'000)
            throw std::runtime_error{"the picture is not complete after two minutes"};
        // One task at a time, so that the longest is known; not in a busy circle, for the threads need the processor.
        arrival.longestTask =
            std::max(arrival.longestTask, milliseconds([] { QApplication::processEvents(QEventLoop::AllEvents, 0); }));
        if (!m_wantsPainting) {
            QThread::usleep(500);
            continue;
        }
        arrival.longestTask = std::max(arrival.longestTask, milliseconds([this] { paint(); }));
        const bool busy = !m_jobs.running().empty();
        if (busy || m_picture != before) {
            seen.push_back({now(), samplesOf(m_picture)});
            before = m_picture.copy();
            still.start();
        }
    }
    if (seen.empty())
        throw std::runtime_error{"nothing was painted"};
    arrival.complete = seen.back().at;
    for (auto at = seen.rbegin(); at != seen.rend() && alike(at->samples, seen.back().samples); ++at)
        arrival.covered = at->at;
    return arrival;
}

void MapStage::moveMouse(const QPointF& to, Qt::MouseButtons buttons) {
    QMouseEvent event{QEvent::MouseMove, to, m_map.mapToGlobal(to), Qt::NoButton, buttons, {}};
    QApplication::sendEvent(&m_map, &event);
}

void MapStage::press(const QPointF& at, Qt::MouseButton button) {
    QMouseEvent event{QEvent::MouseButtonPress, at, m_map.mapToGlobal(at), button, button, {}};
    QApplication::sendEvent(&m_map, &event);
}

void MapStage::release(const QPointF& at, Qt::MouseButton button) {
    QMouseEvent event{QEvent::MouseButtonRelease, at, m_map.mapToGlobal(at), button, {}, {}};
    QApplication::sendEvent(&m_map, &event);
}

void MapStage::wheel(const QPointF& at, int notches) {
    QWheelEvent event{at, m_map.mapToGlobal(at), {}, {0, 120 * notches}, {}, {}, Qt::NoScrollPhase, false};
    QApplication::sendEvent(&m_map, &event);
}

} // namespace fencewright::bench
