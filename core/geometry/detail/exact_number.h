#pragma once

#include <cmath>
#include <vector>

namespace fencewright::geometry::detail {

/// A number without any rounding: a sum of doubles that do not overlap. Exact while no product of doubles under- or
/// overflows.
/// Source: Shewchuk, "Adaptive Precision Floating-Point Arithmetic and Fast Robust Geometric Predicates", Discrete &
/// Computational Geometry 18 (1997) 305-363: grow-expansion with zero elimination.
class ExactNumber {
public:
    ExactNumber(double value) {
        if (value != 0.0)
            m_terms.push_back(value);
    }

    [[nodiscard]] int sign() const { return m_terms.empty() ? 0 : m_terms.back() > 0.0 ? 1 : -1; }

    friend ExactNumber operator+(ExactNumber a, const ExactNumber& b) {
        for (const double term : b.m_terms)
            a.add(term);
        return a;
    }
    friend ExactNumber operator-(ExactNumber a, const ExactNumber& b) {
        for (const double term : b.m_terms)
            a.add(-term);
        return a;
    }
    friend ExactNumber operator*(const ExactNumber& a, const ExactNumber& b) {
        ExactNumber result{0.0};
        for (const double one : a.m_terms)
            for (const double other : b.m_terms) {
                const double product = one * other;
                result.add(std::fma(one, other, -product));
                result.add(product);
            }
        return result;
    }

private:
    void add(double value) {
        double carried = value;
        std::size_t kept = 0;
        for (const double term : m_terms) {
            const double sum = carried + term;
            const double part = sum - carried;
            const double lost = (carried - (sum - part)) + (term - part);
            if (lost != 0.0)
                m_terms[kept++] = lost; // never ahead of what is read
            carried = sum;
        }
        m_terms.resize(kept);
        if (carried != 0.0)
            m_terms.push_back(carried);
    }

    std::vector<double> m_terms; ///< smallest first, none zero
};

} // namespace fencewright::geometry::detail
