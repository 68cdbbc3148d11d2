#include "geometry/changing_index.h"

#include "geometry/line_boxes.h"

#include <QtTest>

#include <random>

using namespace fencewright;
using geometry::Box;
using geometry::ChangingIndex;

namespace {

Box randomBox(std::mt19937& random) {
    std::uniform_real_distribution<double> place{-10.0, 10.0};
    std::exponential_distribution<double> size{2.0};
    const double x = place(random), y = place(random);
    const bool point = random() % 8 == 0;
    return {x, y, point ? x : x + size(random), point ? y : y + size(random)};
}

/// Every box looked at: the reference.
std::vector<std::size_t> meetingOf(const std::vector<Box>& boxes, const Box& window) {
    std::vector<std::size_t> found;
    for (std::size_t i = 0; i < boxes.size(); ++i)
        if (!boxes[i].empty() && boxes[i].meets(window))
            found.push_back(i);
    return found;
}

} // namespace

class ChangingIndexTest : public QObject {
    Q_OBJECT

private slots:
    void afterRandomChanges_answersAsAFreshOne_andAsLookingAtAll() {
        for (unsigned seed = 1; seed <= 1000; ++seed) {
            std::mt19937 random{seed};
            std::vector<Box> boxes(random() % 200);
            for (Box& box : boxes)
                box = random() % 10 == 0 ? Box{} : randomBox(random);
            ChangingIndex index{boxes};
            for (int round = 0; round < 6; ++round) {
                for (std::size_t change = random() % 60; change > 0; --change) {
                    const std::size_t number = random() % (boxes.size() + 3);
                    const Box box = random() % 4 == 0 ? Box{} : randomBox(random);
                    if (number >= boxes.size())
                        boxes.resize(number + 1);
                    boxes[number] = box;
                    box.empty() ? index.remove(number) : index.set(number, box);
                }
                const Box window = randomBox(random);
                const auto expected = meetingOf(boxes, window);
                QVERIFY2(index.meeting(window) == expected, qPrintable(QString("seed %1").arg(seed)));
                QVERIFY2(ChangingIndex{boxes}.meeting(window) == expected, qPrintable(QString("seed %1").arg(seed)));
                QCOMPARE(index.size(), boxes.size());
            }
        }
    }

    void visit_endsWhenToldTo() {
        std::mt19937 random{7};
        std::vector<Box> boxes(500);
        for (Box& box : boxes)
            box = randomBox(random);
        ChangingIndex index{boxes};
        for (std::size_t i = 0; i < 20; ++i)
            index.set(i, randomBox(random));
        int calls = 0;
        index.visitMeeting({-100, -100, 100, 100}, [&](std::size_t) { return ++calls < 490; });
        QCOMPARE(calls, 490);
        ChangingIndex{}.visitMeeting({-100, -100, 100, 100}, [&](std::size_t) { return ++calls > 0; });
        QCOMPARE(calls, 490);
    }

    void lineBoxes_leaveOutNoEdgeThatMeetsTheWindow() {
        for (unsigned seed = 1; seed <= 1000; ++seed) {
            std::mt19937 random{seed};
            const bool closed = random() % 2 == 0;
            std::vector<model::Position> line(random() % 300);
            std::normal_distribution<double> step{0.0, 0.3};
            model::Position at{};
            for (model::Position& place : line)
                place = at = {at.lon + step(random), at.lat + step(random)};
            const geometry::LineBoxes boxes{line, closed};
            const Box window = randomBox(random);
            std::vector<bool> told(line.size(), false);
            std::size_t last = 0;
            boxes.visitMeeting(window, [&](std::size_t first, std::size_t end) {
                QVERIFY(first >= last && first < end && end <= line.size());
                for (std::size_t i = first; i < end; ++i)
                    told[i] = true;
                last = end;
            });
            const std::size_t edges = closed || line.size() < 2 ? line.size() : line.size() - 1;
            for (std::size_t i = 0; i < edges; ++i) {
                Box edge;
                edge.add(line[i].lon, line[i].lat);
                edge.add(line[(i + 1) % line.size()].lon, line[(i + 1) % line.size()].lat);
                QVERIFY2(told[i] || !edge.meets(window), qPrintable(QString("seed %1, edge %2").arg(seed).arg(i)));
            }
            QVERIFY(boxes.box() == geometry::boxOf(line));
        }
    }
};

QTEST_APPLESS_MAIN(ChangingIndexTest)
#include "changing_index_test.moc"
