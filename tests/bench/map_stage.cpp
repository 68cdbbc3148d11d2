#include "bench/map_stage.h"

#include <QApplication>
#include <QElapsedTimer>
#include <QMouseEvent>
#include <QPainter>
#include <QThread>
#include <QWheelEvent>

#include <stdexcept>

namespace fencewright::bench {

MapStage::MapStage(const Options& options)
    : m_settings{m_folder.filePath("settings.ini")}, m_audit{m_document, m_jobs},
      m_sources{m_document, m_jobs, QStringLiteral(FENCEWRIGHT_BUILD "/bin/fencewright-cli"),
                QString::fromStdString((options.data / "kept-layers").string())},
      m_map{m_document, m_outlines, m_audit, m_sources, m_settings}, m_picture{1920, 1080, QImage::Format_RGB32} {
    // Painted into a picture only: a screen would take its own time.
    m_map.setAttribute(Qt::WA_DontShowOnScreen);
    m_map.resize(m_picture.size());
    m_map.show();
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
    m_document.take(std::move(set), {}, false);
}

void MapStage::paint() { m_map.render(&m_picture, {}, {}, {}); }

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
