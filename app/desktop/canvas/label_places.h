#pragma once

#include <QObject>
#include <QThreadPool>

#include "model/position.h"
#include "session/outline_cache.h"

#include <memory>
#include <optional>
#include <string>
#include <unordered_map>
#include <vector>

namespace fencewright::desktop {

/// Where the names of fences go: a place well inside each outline. Few and small ones are sought at once, others on
/// another thread; a fence that changes keeps its place until the new one is there.
class LabelPlaces : public QObject {
    Q_OBJECT

public:
    using Outlined = std::shared_ptr<const session::OutlinedFence>;

    explicit LabelPlaces(QObject* parent = nullptr);
    ~LabelPlaces() override;

    /// A picture begins: what it asks for is wanted, and nothing else.
    void begin();
    /// Nothing: there is none, or it is not known yet.
    std::optional<model::Position> find(const Outlined& fence);
    /// The picture is done.
    void end();

    /// A place well inside the outline as it is seen: fine detail does not count.
    static std::optional<model::Position> sought(const session::OutlinedFence& fence);

signals:
    void arrived();

private:
    struct Place {
        std::weak_ptr<const session::OutlinedFence> fence; ///< of which it is
        std::optional<model::Position> place;
    };

    std::unordered_map<std::string, Place> m_places; ///< by the fence's identity
    std::vector<Outlined> m_wanted;
    qint64 m_soughtNanoseconds = 0; ///< at once, for this picture
    bool m_running = false;
    QThreadPool m_pool;
};

} // namespace fencewright::desktop
