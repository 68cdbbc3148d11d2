// The real window on a screen of 1920 x 1080, with an orthophoto of ten gigapixels, a million parcels and 200 fences,
// worked by the mouse of the X server.

#include "bench/bar.h"
#include "bench/fence_sets.h"
#include "bench/hands.h"
#include "bench/timed_application.h"

#include "desktop/canvas/map_canvas.h"
#include "desktop/main_window.h"
#include "desktop/trimmed_heap.h"
#include "store/document_file.h"

#include <QTemporaryDir>
#include <QThread>
#include <QTimer>

#include <atomic>
#include <cmath>
#include <fstream>
#include <memory>
#include <stdexcept>
#include <thread>
#include <unistd.h>

using namespace fencewright;
using namespace fencewright::bench;

namespace {

struct Resident {
    double megabytes = 0.0;
    double ofFiles = 0.0; ///< pages that the system takes back when it likes
};

/// Cheap enough to ask while the window works: not exact to some hundred kilobytes.
Resident resident() {
    std::ifstream pages{"/proc/self/statm"};
    double size = 0, resident = 0, shared = 0;
    pages >> size >> resident >> shared;
    const double page = double(::sysconf(_SC_PAGESIZE)) / 1e6;
    return {resident * page, shared * page};
}

model::Source source(model::SourceKind kind, const std::filesystem::path& path) {
    model::Source one;
    one.id = model::freshId<model::Source>();
    one.kind = kind;
    one.name = path.stem().string();
    one.path = std::filesystem::absolute(path).string();
    if (kind == model::SourceKind::Reference)
        one.numberField = one.labelField = "number";
    return one;
}

class Window {
public:
    Window(const Options& options, TimedApplication& application) : m_application{application} {
        // The program's own caches lie with the data, so that a second run need not read the parcels again.
        qputenv("XDG_CACHE_HOME", QByteArray::fromStdString((options.data / "window-cache").string()));
        model::FenceSet set = fences(200, 1000, countyBox(8), 0.08);
        set.sources.append(source(model::SourceKind::Imagery, options.data / "ortho-10-gigapixel.tif"));
        set.sources.append(source(model::SourceKind::Reference, options.data / "parcels-wgs84.gpkg"));
        const QString path = m_folder.filePath("set.gpkg");
        store::saveDocument(set, path.toStdString());

        desktop::WindowOptions window;
        window.settingsFile = m_folder.filePath("settings.ini");
        window.readerProgram = QStringLiteral(FENCEWRIGHT_BUILD "/bin/fencewright-cli");
        window.theme = session::Theme::Light;
        m_window = std::make_unique<desktop::MainWindow>(window);
        m_window->setGeometry(0, 0, 1920, 1080);
        m_window->show();
        m_window->open(path);
        wait(1000);
        QElapsedTimer since;
        since.start();
        while (!m_window->jobs().running().empty() || !m_window->audit().isCurrent()) {
            if (since.elapsed() > 180'000)
                throw std::runtime_error{"the document is not open after three minutes"};
            wait(100);
        }
        for (const auto& one : m_window->document().set().sources)
            if (m_window->sources().find(one.id)->state != session::LoadedSource::State::Ready)
                throw std::runtime_error{"a source could not be opened: " + one.path};
        lookAtTheMiddle();
        wait(1500);
    }

    struct Walk {
        std::vector<TimedApplication::Task> tasks;
        std::vector<Resident> resident; ///< about once a second
        double seconds = 0.0;
        std::size_t turnsARound = 0;
    };

    /// Pans and zooms, a new direction each time, about the middle of the county; after so many turns from the same
    /// place again, so that one round can be held against another.
    Walk walk(std::chrono::seconds time, int turnsARound) {
        desktop::MapCanvas& map = m_window->map();
        lookAtTheMiddle();
        const QPoint middle = map.mapToGlobal(map.rect().center());
        const double scale = map.metresPerPixel();
        const model::Position place = map.toEarth(map.rect().center());
        std::atomic<bool> done{false};
        std::string fault;
        Walk result;
        result.turnsARound = std::size_t(turnsARound);
        std::thread hands{[&] {
            try {
                Hands mouse;
                const auto begin = std::chrono::steady_clock::now();
                for (int count = 0; std::chrono::steady_clock::now() - begin < time; ++count) {
                    const int turn = count % turnsARound;
                    if (turn == 0 && count > 0)
                        QMetaObject::invokeMethod(
                            &map, [this] { lookAtTheMiddle(); }, Qt::BlockingQueuedConnection);
                    const double angle = 2.4 * turn;
                    const QPoint way{int(420 * std::cos(angle)), int(420 * std::sin(angle))};
                    mouse.drag(middle - way / 2, way, std::chrono::milliseconds{900});
                    // In and out by turns, so that the scale stays between some decimetres and some ten metres a pixel.
                    constexpr int notches[] = {3, 5, -4, -6, -5, 4, 6, -3};
                    mouse.wheel(middle + way / 3, notches[turn % 8]);
                    result.resident.push_back(resident());
                }
                result.seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
            } catch (const std::exception& problem) {
                fault = problem.what();
            }
            done = true;
        }};
        m_application.start(&map);
        QEventLoop loop;
        QTimer ended;
        QObject::connect(&ended, &QTimer::timeout, &loop, [&] {
            if (done)
                loop.quit();
        });
        ended.start(250);
        loop.exec();
        hands.join();
        result.tasks = m_application.stop();
        if (!fault.empty())
            throw std::runtime_error{fault};
        const model::Position after = map.toEarth(map.rect().center());
        if (map.metresPerPixel() == scale || (after.lon == place.lon && after.lat == place.lat))
            throw std::runtime_error{"the mouse did not move the map"};
        return result;
    }

private:
    void lookAtTheMiddle() { m_window->map().zoomTo(countyBox(4)); }

    static void wait(int time) {
        QEventLoop loop;
        QTimer::singleShot(time, &loop, &QEventLoop::quit);
        loop.exec();
    }

    TimedApplication& m_application;
    QTemporaryDir m_folder;
    std::unique_ptr<desktop::MainWindow> m_window;
};

/// The window and its walks, made when they are first asked for.
class Evening {
public:
    explicit Evening(TimedApplication& application) : m_application{application} {}

    const Window::Walk& minute(const Options& options) {
        if (!m_minute)
            m_minute = window(options).walk(std::chrono::seconds{options.quick ? 15 : 60}, turns(options));
        return *m_minute;
    }
    const Window::Walk& longWalk(const Options& options) {
        (void)minute(options); // the caches are full after it
        if (!m_long)
            m_long = window(options).walk(std::chrono::seconds{options.quick ? 45 : 600}, turns(options));
        return *m_long;
    }

private:
    /// Of one round: about a minute's.
    static int turns(const Options& options) { return options.quick ? 8 : 45; }

    Window& window(const Options& options) {
        if (!m_window)
            m_window = std::make_unique<Window>(options, m_application);
        return *m_window;
    }
    TimedApplication& m_application;
    std::unique_ptr<Window> m_window;
    std::optional<Window::Walk> m_minute, m_long;
};

std::string text(double value, int decimals) {
    char words[32];
    std::snprintf(words, sizeof words, "%.*f", decimals, value);
    return words;
}

std::vector<double> times(const Window::Walk& walk, bool paintingOnly) {
    std::vector<double> values;
    for (const TimedApplication::Task& task : walk.tasks)
        if (task.painted || !paintingOnly)
            values.push_back(task.milliseconds);
    return values;
}

Figures percentile(const Window::Walk& walk, bool paintingOnly) {
    const std::vector<double> values = times(walk, paintingOnly);
    const double frames = double(times(walk, true).size());
    return {.ours = quantile(values, 0.99),
            .note = std::to_string(values.size()) + " tasks in " + text(walk.seconds, 0) + " s; in the middle " +
                    text(quantile(values, 0.5), 2) + " ms, longest " + text(quantile(values, 1.0), 1) + " ms; " +
                    text(frames / walk.seconds, 1) + " frames a second"};
}

/// A line of the system's account of this process, in megabytes.
double statusMegabytes(const std::string& name) {
    std::ifstream status{"/proc/self/status"};
    for (std::string line; std::getline(status, line);)
        if (line.starts_with(name + ":"))
            return std::stod(line.substr(name.size() + 1)) * 1024 / 1e6;
    throw std::runtime_error{"/proc/self/status has no " + name};
}

Figures memory(const Window::Walk& walk) {
    const auto isLess = [](const Resident& a, const Resident& b) { return a.megabytes < b.megabytes; };
    return {.ours = std::max_element(walk.resident.begin(), walk.resident.end(), isLess)->megabytes,
            .note = "the most during the minute; after it " + text(double(residentBytes()) / 1e6, 0) +
                    " MB, of which " + text(statusMegabytes("RssAnon"), 0) + " MB its own and " +
                    text(statusMegabytes("RssFile"), 0) + " MB pages of files"};
}

/// The last three rounds of a long walk against its first three. They lead over the same ground: what is held after as
/// many turns differs by what was kept.
Figures growth(const Window::Walk& walk) {
    const std::size_t rounds = walk.resident.size() / walk.turnsARound, compared = std::min<std::size_t>(3, rounds / 2);
    if (compared == 0)
        throw std::runtime_error{"the walk was shorter than two rounds"};
    std::vector<Resident> means(rounds);
    std::string words;
    for (std::size_t round = 0; round < rounds; ++round) {
        for (std::size_t turn = 0; turn < walk.turnsARound; ++turn) {
            const Resident& one = walk.resident[round * walk.turnsARound + turn];
            means[round].megabytes += one.megabytes / double(walk.turnsARound);
            means[round].ofFiles += one.ofFiles / double(walk.turnsARound);
        }
        words += " " + text(means[round].megabytes - means[round].ofFiles, 0);
    }
    const auto meanFrom = [&](std::size_t first) {
        double sum = 0;
        for (std::size_t round = first; round < first + compared; ++round)
            sum += means[round].megabytes;
        return sum / double(compared);
    };
    return {.ours = meanFrom(rounds - compared),
            .baseline = meanFrom(0),
            .note = "mean of the last " + std::to_string(compared) + " of " + std::to_string(rounds) +
                    " rounds over the same ground in " + text(walk.seconds, 0) +
                    " s against that of the first; its own, without pages of files, by rounds:" + words + " MB"};
}

} // namespace

int main(int argc, char** argv) {
    const desktop::TrimmedHeap heap; // as the program has it
    TimedApplication application{argc, argv};
    const auto evening = std::make_shared<Evening>(application);
    return runBars(
        argc, argv,
        {{"window: a minute of panning and zooming: 99 of 100 tasks of its thread are done in", "ms", Sense::AtMost,
          16.0, [=](const Options& options) { return percentile(evening->minute(options), false); }},
         {"window: of those that paint the map", "ms", Sense::AtMost, 16.0,
          [=](const Options& options) { return percentile(evening->minute(options), true); }},
         {"window: resident memory with all of that open", "MB", Sense::AtMost, 600.0,
          [=](const Options& options) { return memory(evening->minute(options)); }},
         {"window: resident memory over ten minutes of panning", "MB", Sense::AtMost, 1.02,
          [=](const Options& options) { return growth(evening->longWalk(options)); }}});
}
