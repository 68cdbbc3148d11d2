#include "geometry/detail/orientation.h"

#include <array>
#include <cmath>
#include <cstddef>

namespace fencewright::geometry::detail {
namespace {

/// A number as a sum of doubles that do not overlap, smallest first, so that the last that is not zero has its sign.
class Expansion {
public:
    void addProduct(double a, double b) {
        const double product = a * b;
        add(std::fma(a, b, -product));
        add(product);
    }
    [[nodiscard]] int sign() const {
        for (std::size_t i = m_size; i-- > 0;)
            if (m_terms[i] != 0.0)
                return m_terms[i] > 0.0 ? 1 : -1;
        return 0;
    }

private:
    void add(double value) {
        // Knuth's two-sum keeps what rounding would lose.
        double carried = value;
        for (std::size_t i = 0; i < m_size; ++i) {
            const double sum = carried + m_terms[i];
            const double part = sum - carried;
            m_terms[i] = (carried - (sum - part)) + (m_terms[i] - part);
            carried = sum;
        }
        m_terms[m_size++] = carried;
    }

    std::array<double, 12> m_terms{};
    std::size_t m_size = 0;
};

int exactOrientation(model::Position a, model::Position b, model::Position c) {
    Expansion sum;
    sum.addProduct(a.lon, b.lat);
    sum.addProduct(-a.lat, b.lon);
    sum.addProduct(b.lon, c.lat);
    sum.addProduct(-b.lat, c.lon);
    sum.addProduct(c.lon, a.lat);
    sum.addProduct(-c.lat, a.lon);
    return sum.sign();
}

/// 0 for the half turn from due east (included) to due west (excluded), 1 for the other.
int half(model::Position centre, model::Position towards) {
    return towards.lat > centre.lat || (towards.lat == centre.lat && towards.lon > centre.lon) ? 0 : 1;
}

} // namespace

int orientation(model::Position a, model::Position b, model::Position c) {
    const double left = (a.lon - c.lon) * (b.lat - c.lat);
    const double right = (a.lat - c.lat) * (b.lon - c.lon);
    const double difference = left - right;
    // Shewchuk's bound (3 + 16e)e of the rounding of these three lines, e = 2^-53.
    constexpr double bound = 3.3306690738754716e-16;
    const double error = bound * (std::abs(left) + std::abs(right));
    if (difference > error)
        return 1;
    if (-difference > error)
        return -1;
    return exactOrientation(a, b, c);
}

int compareDirections(model::Position centre, model::Position towardsA, model::Position towardsB) {
    const int halves = half(centre, towardsA) - half(centre, towardsB);
    return halves != 0 ? halves : -orientation(centre, towardsA, towardsB);
}

} // namespace fencewright::geometry::detail
