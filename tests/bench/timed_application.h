#pragma once

#include <QApplication>
#include <QElapsedTimer>

#include <vector>

namespace fencewright::bench {

/// Times the tasks of the window's thread: each event that is delivered, with all that follows from it at once.
class TimedApplication : public QApplication {
public:
    using QApplication::QApplication;

    struct Task {
        double milliseconds = 0.0;
        bool painted = false; ///< a frame of the widget that is watched was painted in it
    };

    /// From now on, also counting the frames of that widget.
    void start(const QObject* watched) {
        m_tasks.clear();
        m_watched = watched;
        m_depth = 0;
    }
    std::vector<Task> stop() {
        m_watched = nullptr;
        return std::move(m_tasks);
    }

    bool notify(QObject* receiver, QEvent* event) override {
        if (!m_watched)
            return QApplication::notify(receiver, event);
        if (receiver == m_watched && event->type() == QEvent::Paint)
            m_painted = true;
        if (m_depth++ == 0) {
            m_painted = false;
            m_timer.start();
        }
        const bool done = QApplication::notify(receiver, event);
        if (--m_depth == 0 && m_watched)
            m_tasks.push_back({double(m_timer.nsecsElapsed()) / 1e6, m_painted});
        return done;
    }

private:
    const QObject* m_watched = nullptr;
    int m_depth = 0;
    bool m_painted = false;
    QElapsedTimer m_timer;
    std::vector<Task> m_tasks;
};

} // namespace fencewright::bench
