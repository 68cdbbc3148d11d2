#include "support/random_sets.h"

#include <array>
#include <bit>
#include <cmath>
#include <limits>

namespace fencewright::test {

namespace {

using namespace model;

class Maker {
public:
    Maker(std::mt19937_64& random, Numbers numbers) : m_random{random}, m_numbers{numbers} {}

    FenceSet set(int most) {
        FenceSet set;
        set.title = text();
        set.notes = text();
        for (int i = upTo(most); i > 0; --i)
            set.sites.append(site());
        for (int i = upTo(most); i > 0; --i)
            set.fences.append(fence(set));
        for (int i = upTo(most); i > 0; --i)
            set.homes.append(home());
        for (int i = upTo(most); i > 0; --i)
            set.sources.append(source());
        if (chance(2))
            set.margin = margin();
        return set;
    }

private:
    int upTo(int most) { return static_cast<int>(m_random() % static_cast<unsigned>(most + 1)); }
    bool chance(int of) { return m_random() % static_cast<unsigned>(of) == 0; }
    double unit() { return std::uniform_real_distribution<double>{-1.0, 1.0}(m_random); }

    double number(double sensible) {
        if (m_numbers == Numbers::Sensible)
            return sensible;
        constexpr double edges[] = {0.0,
                                    -0.0,
                                    1.0,
                                    0.1,
                                    1.0 / 3.0,
                                    std::numeric_limits<double>::max(),
                                    std::numeric_limits<double>::lowest(),
                                    std::numeric_limits<double>::min(),
                                    std::numeric_limits<double>::denorm_min(),
                                    std::numeric_limits<double>::epsilon(),
                                    std::numeric_limits<double>::infinity(),
                                    -std::numeric_limits<double>::infinity(),
                                    9007199254740993.0,
                                    1e21,
                                    1e-7,
                                    123456789.12345679,
                                    90.0,
                                    -180.0};
        if (chance(3))
            return edges[m_random() % std::size(edges)];
        if (chance(2))
            return sensible;
        const double any = std::bit_cast<double>(m_random());
        return std::isnan(any) ? sensible : any;
    }

    std::string text() {
        static const std::string texts[] = {
            "",
            "Alder Reach",
            "Утилита «Ольха»",
            "水庫の囲い",
            "خزان المياه",
            "Ærø – ½ mi, 100′ ≤ h",
            "\"quoted\" \\ and 'single'; -- DROP TABLE fences;",
            "two\nlines\tand a tab",
            "\U0001F985 nest",
            "combining e\u0301, zero\u200Bwidth",
            std::string{"with\0zero", 9},
            "not UTF-8: \xff\xfe\xc3",
            "\xed\xa0\x80 lone surrogate",
            std::string(3000, 'x'),
        };
        return texts[m_random() % std::size(texts)];
    }

    std::string idValue() {
        if (m_numbers == Numbers::Extreme && chance(20))
            return text();
        constexpr std::string_view digits = "0123456789abcdef";
        std::string value;
        for (int i = 0; i < 32; ++i)
            value += digits[m_random() % digits.size()];
        return value;
    }

    StatedLength length(double most) {
        return {Length::metres(number(std::abs(unit()) * most)), chance(2) ? std::string{} : text()};
    }

    Margin margin() {
        Margin margin;
        margin.positionError = length(20.0);
        margin.speed = {Speed::metresPerSecond(number(std::abs(unit()) * 30.0)), text()};
        margin.reaction = std::chrono::duration<double>{number(std::abs(unit()) * 3.0)};
        margin.deceleration = {Acceleration::metresPerSecondSquared(number(0.5 + std::abs(unit()) * 5.0)), text()};
        margin.allowance = length(20.0);
        margin.basis = text();
        return margin;
    }

    Position around(double size) {
        return {number(m_lon + unit() * size), number(std::clamp(m_lat + unit() * size, -89.0, 89.0))};
    }
    void goSomewhere() {
        m_lon = chance(5) ? 180.0 : 180.0 * unit();
        m_lat = (chance(5) ? 88.0 : 75.0) * unit();
    }

    std::vector<Position> places(int least, int most) {
        const double size = std::pow(10.0, 2.0 * unit() - 3.0);
        std::vector<Position> all;
        for (int i = least + upTo(most - least); i > 0; --i)
            all.push_back(around(size));
        return all;
    }

    Ring ring() {
        Ring ring;
        if (m_numbers == Numbers::Extreme || chance(4)) {
            ring.corners = places(0, 12);
        } else {
            const double size = std::pow(10.0, unit() - 2.5);
            const int corners = 3 + upTo(9);
            for (int i = 0; i < corners; ++i) {
                const double angle = 6.283185307179586 * i / corners;
                ring.corners.push_back({m_lon + size * std::cos(angle), m_lat + size * std::sin(angle)});
            }
        }
        ring.closureAssumed = chance(5);
        return ring;
    }
    Polygon polygon() {
        Polygon polygon{ring(), {}};
        for (int i = chance(3) ? upTo(3) : 0; i > 0; --i)
            polygon.holes.push_back(ring());
        return polygon;
    }

    Date date() {
        if (m_numbers == Numbers::Extreme && chance(4)) // also days that do not exist
            return {std::chrono::year{static_cast<int>(m_random() % 65535) - 32767},
                    std::chrono::month{static_cast<unsigned>(m_random() % 256)},
                    std::chrono::day{static_cast<unsigned>(m_random() % 256)}};
        return {std::chrono::year{2020 + upTo(20)}, std::chrono::month{static_cast<unsigned>(1 + upTo(11))},
                std::chrono::day{static_cast<unsigned>(1 + upTo(27))}};
    }
    YearDay yearDay() {
        return {std::chrono::month{static_cast<unsigned>(1 + m_random() % 12)},
                std::chrono::day{static_cast<unsigned>(1 + m_random() % 29)}};
    }

    Site site() {
        goSomewhere();
        Site site;
        site.id.value = idValue();
        site.name = text();
        site.category = text();
        switch (m_random() % 3) {
        case 0:
            site.geometry = around(0.01);
            break;
        case 1:
            site.geometry = places(m_numbers == Numbers::Extreme ? 0 : 2, 6);
            break;
        default:
            site.geometry = polygon();
        }
        site.positionError = length(10.0);
        site.positionSource = text();
        site.confidential = chance(2);
        site.locked = chance(4);
        site.notes = text();
        return site;
    }

    Shape shape(const FenceSet& set) {
        goSomewhere();
        switch (m_random() % 5) {
        case 0:
            return DrawnPolygon{polygon()};
        case 1:
            return Circle{around(0.01), length(3000.0)};
        case 2:
            return Corridor{places(m_numbers == Numbers::Extreme ? 0 : 2, 5), length(200.0), length(200.0)};
        case 3: {
            Setback setback{{idValue()}, length(1000.0)};
            if (!set.sites.empty() && !chance(4))
                setback.site = set.sites[m_random() % set.sites.size()].id;
            return setback;
        }
        default: {
            ParcelUnion parcels;
            for (int i = upTo(3); i > 0; --i) {
                Parcel parcel{text(), {}};
                for (int part = upTo(2); part > 0; --part)
                    parcel.surface.parts.push_back(polygon());
                parcels.parcels.push_back(std::move(parcel));
            }
            parcels.closing = chance(2) ? StatedLength{} : length(1.0);
            return parcels;
        }
        }
    }

    std::optional<HeightLimit> limit() {
        if (chance(3))
            return std::nullopt;
        return HeightLimit{length(150.0), static_cast<HeightReference>(m_random() % 3)};
    }

    Fence fence(const FenceSet& set) {
        Fence fence;
        fence.id.value = idValue();
        fence.name = text();
        fence.kind = static_cast<FenceKind>(m_random() % 2);
        fence.shape = shape(set);
        fence.band = {limit(), limit()};
        if (chance(2))
            fence.period.from = date();
        if (chance(2))
            fence.period.until = date();
        if (chance(2))
            fence.period.season = Season{yearDay(), yearDay()};
        fence.basis.kind = static_cast<BasisKind>(m_random() % 6);
        fence.basis.citation = text();
        if (chance(2))
            fence.basis.distance = length(800.0);
        if (chance(2))
            fence.basis.date = date();
        fence.basis.who = text();
        fence.enabled = !chance(4);
        fence.locked = chance(4);
        fence.notes = text();
        return fence;
    }

    Home home() {
        goSomewhere();
        Home home;
        home.id.value = idValue();
        home.name = text();
        home.kind = static_cast<HomeKind>(m_random() % 2);
        home.place = around(0.01);
        home.landingRadius = length(20.0);
        home.locked = chance(4);
        home.notes = text();
        return home;
    }

    Source source() {
        Source source;
        source.id.value = idValue();
        source.kind = static_cast<SourceKind>(m_random() % 2);
        source.name = text();
        source.path = text();
        source.layer = text();
        source.crs = chance(2) ? "EPSG:25829" : "";
        source.visible = chance(2);
        source.opacity = number(std::abs(unit()));
        if (chance(2))
            source.captured = date();
        source.labelField = text();
        source.numberField = text();
        source.filter = text();
        if (chance(2))
            source.bands = {1 + int(m_random() % 9), 1 + int(m_random() % 9), 1 + int(m_random() % 9)};
        if (chance(2))
            source.stretch = {number(unit()), number(unit())};
        return source;
    }

    std::mt19937_64& m_random;
    Numbers m_numbers;
    double m_lon = 0.0;
    double m_lat = 0.0;
};

} // namespace

FenceSet randomSet(std::mt19937_64& random, Numbers numbers, int most) { return Maker{random, numbers}.set(most); }

} // namespace fencewright::test
