#include "model/fence_set.h"

#include <QtTest>

#include <random>

using namespace fencewright::model;

class RosterTest : public QObject {
    Q_OBJECT

    static Home home(const std::string& id) {
        Home made;
        made.id = HomeId{id};
        made.name = "Home " + id;
        return made;
    }

private slots:
    /// Against a plain list that is looked through from its beginning.
    void whatIsLookedFor_isWhatAPlainListHas_afterAnyChanges() {
        std::mt19937 random{20261201};
        for (int run = 0; run < 40; ++run) {
            Roster<Home> roster;
            std::vector<std::shared_ptr<const Home>> plain;
            for (int step = 0; step < 300; ++step) {
                const std::size_t at = random() % (plain.size() + 1);
                const auto one = std::make_shared<const Home>(home(std::to_string(random() % 60)));
                switch (plain.empty() ? random() % 2 : random() % 4) {
                case 0:
                    roster.append(*one);
                    plain.push_back(roster.pointer(roster.size() - 1));
                    break;
                case 1:
                    roster.insert(at, one);
                    plain.insert(plain.begin() + std::ptrdiff_t(at), one);
                    break;
                case 2:
                    roster.replace(at % plain.size(), one);
                    plain[at % plain.size()] = one;
                    break;
                default:
                    roster.erase(at % plain.size());
                    plain.erase(plain.begin() + std::ptrdiff_t(at % plain.size()));
                }
                const Roster<Home> copied = roster;
                QCOMPARE(copied.size(), plain.size());
                QVERIFY(copied == roster);
                for (int id = 0; id < 61; ++id) { // the last is never there
                    const HomeId wanted{std::to_string(id)};
                    const auto found =
                        std::find_if(plain.begin(), plain.end(), [&](const auto& item) { return item->id == wanted; });
                    QCOMPARE(copied.indexOf(wanted), std::size_t(found - plain.begin()));
                    QCOMPARE(copied.find(wanted), found == plain.end() ? nullptr : found->get());
                    QCOMPARE(copied.findPointer(wanted), found == plain.end() ? nullptr : *found);
                }
            }
        }
    }
};

QTEST_GUILESS_MAIN(RosterTest)
#include "roster_test.moc"
