#pragma once

#include "bench/bar.h"
#include "desktop/canvas/map_canvas.h"

#include <QImage>
#include <QTemporaryDir>

#include <functional>

namespace fencewright::bench {

/// The map as the window has it, 1920 x 1080, with a document of its own; painted into a picture.
class MapStage : public QObject {
public:
    /// @param cache  where read layers and pyramids are kept.
    explicit MapStage(const std::filesystem::path& cache);
    ~MapStage() override;

    void addImagery(const std::filesystem::path& path);
    void addParcels(const std::filesystem::path& path);
    void addFences(const model::FenceSet& fences);

    /// Paints the whole map into the picture.
    void paint();
    /// Handles what has come in, without waiting.
    void breathe();
    /// Paints and handles events until all background work is done and the picture stays the same.
    /// @throws std::runtime_error  it still changes after a minute.
    void settle();
    /// Handles events for a while, whatever else is still at work.
    void rest();
    /// How a picture comes to be, from now on: milliseconds.
    struct Arrival {
        double covered = 0.0;     ///< until something like the last picture was to be seen all over
        double complete = 0.0;    ///< until it was as it stayed
        double longestTask = 0.0; ///< of the window's thread, painting included
    };
    /// Lives as a window does, painting when the map asks for it, until nothing changes any more.
    [[nodiscard]] Arrival watch();
    /// A movement of the mouse, as the window system reports it.
    void moveMouse(const QPointF& to, Qt::MouseButtons buttons = {});
    void press(const QPointF& at, Qt::MouseButton button);
    void release(const QPointF& at, Qt::MouseButton button);
    /// A notch of the wheel, forward or back.
    void wheel(const QPointF& at, int notches);

    const QImage& picture() const { return m_picture; }
    desktop::MapCanvas& map() { return m_map; }
    session::OpenDocument& document() { return m_document; }
    session::LiveAudit& audit() { return m_audit; }
    session::SourceLibrary& sources() { return m_sources; }

    /// The map's own painting is put off to paint().
    bool eventFilter(QObject* watched, QEvent* event) override;

private:
    void addSource(model::SourceKind kind, const std::filesystem::path& path);

    QTemporaryDir m_folder;
    session::OpenDocument m_document;
    session::BackgroundJobs m_jobs;
    session::OutlineCache m_outlines{&m_jobs};
    session::Settings m_settings;
    session::LiveAudit m_audit;
    session::SourceLibrary m_sources;
    desktop::MapCanvas m_map;
    QImage m_picture;
    bool m_painting = false;
    bool m_wantsPainting = false;
};

} // namespace fencewright::bench
