#pragma once

#include <QObject>
#include <QPainter>

#include "desktop/canvas/tile_board.h"

#include <memory>
#include <optional>
#include <set>
#include <vector>

namespace fencewright::desktop {

/// An image source as the map shows it.
struct ImagerySource {
    QString id;
    QString path; ///< file, folder, or an address with "://"
    raster::OpenOptions opening;
    std::shared_ptr<const raster::RasterDescription> raster;
    std::vector<raster::PyramidLevel> levels; ///< see raster::Dataset::levels(); empty: it is always warped
    int tilePixels = 0;                       ///< see raster::Dataset::tilePixels()
    double opacity = 1.0;
    std::shared_ptr<session::SpareDataset> spare{};        ///< the same raster, open already; may be null
    std::shared_ptr<const raster::PaintedPixels> glance{}; ///< a coarse picture of all of it; may be null
};

/// Imagery in tiles. Where the map is drawn in a raster's own plane these are parts of its own pyramid, painted as they
/// lie in the file; elsewhere they are warped into the plane, at powers of two of a metre a pixel.
///
/// Error: a pixel is painted within half a pixel of the screen of its true place, plus the 0.125 of
/// raster::warpedForPainting.
class TileLayer : public QObject {
    Q_OBJECT

public:
    static constexpr int kTilePixels = 512; ///< of a warped tile
    static constexpr qint64 kCacheBytes = 112LL * 1024 * 1024;

    explicit TileLayer(TileQueue& queue, QObject* parent = nullptr);

    /// In drawing order.
    void setSources(std::vector<ImagerySource> sources);
    /// Makes the view the one that is shown: asks for what is missing in it.
    void show(const ViewTransform& view, double pixelRatio);
    /// Paints of the view shown what reaches into `seen`, in widget pixels.
    void paintPart(QPainter& painter, const ViewTransform& view, const QRectF& seen, TileQuality quality);
    /// Shows the view and paints all of it.
    void paint(QPainter& painter, const ViewTransform& view);

    /// Of each image, where it is known.
    std::vector<std::vector<model::Position>> corners() const;
    /// Whether all that is seen lies within an image that is shown undimmed.
    bool covers(const ViewTransform& view) const;

    /// See TileBoard.
    std::uint64_t arrangement() const { return m_board.arrangement(); }
    bool isComplete() const { return m_board.isComplete(); }
    qint64 cachedBytes() const { return m_board.bytes(); }

signals:
    /// What is seen in that part of the plane changed.
    void tileArrived(const QRectF& plane);
    /// A part of a source could not be read; said once, until all that is seen of it is there.
    /// @param reason  the words without the place.
    void sourceFailed(const QString& id, const QString& words, const QString& reason);
    void sourceWhole(const QString& id);

private:
    struct Layer {
        ImagerySource source;
        std::uint64_t number = 0; ///< another path, another look: another number
        std::shared_ptr<const RasterOpening> opening;
        std::uint64_t extentPlane = 0; ///< the number of the plane that the extent is of
        std::optional<QRectF> extent;  ///< nothing: somewhere
    };

    std::vector<WantedLayer> wanted(const ViewTransform& view, double pixelRatio, int coarser);
    void lendGlance(const Layer& layer);
    bool addNative(WantedLayer& wanted, const Layer& layer, const ViewTransform& view, double scale) const;
    void addWarped(WantedLayer& wanted, Layer& layer, const ViewTransform& view, double scale) const;

    TileBoard m_board;
    TileQueue& m_queue;
    std::vector<Layer> m_layers;
    std::set<std::uint64_t> m_failed; ///< of which it was said that a part cannot be read
    std::uint64_t m_nextNumber = 1;
};

} // namespace fencewright::desktop
