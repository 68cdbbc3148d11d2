#pragma once

#include <stdexcept>
#include <string>
#include <utility>

namespace fencewright {

/// Something could not be done. Carries what a person needs: the problem, where it is, and what to do about it.
///
/// A fault is for work that cannot go on. What is wrong with a fence set is not a fault but an audit::Finding.
class Fault : public std::runtime_error {
public:
    /// @param problem  one sentence: what is wrong.
    /// @param place    file, layer, feature, line or coordinate; empty where there is none.
    /// @param remedy   one sentence: what the person can do.
    Fault(std::string problem, std::string place, std::string remedy)
        : std::runtime_error{sentence(problem, place, remedy)}, m_problem{std::move(problem)},
          m_place{std::move(place)}, m_remedy{std::move(remedy)} {}

    [[nodiscard]] const std::string& problem() const { return m_problem; }
    [[nodiscard]] const std::string& place() const { return m_place; }
    [[nodiscard]] const std::string& remedy() const { return m_remedy; }

private:
    static std::string sentence(const std::string& problem, const std::string& place, const std::string& remedy) {
        std::string text = place.empty() ? problem : place + ": " + problem;
        return remedy.empty() ? text : text + " " + remedy;
    }

    std::string m_problem;
    std::string m_place;
    std::string m_remedy;
};

/// The person asked for the work to stop. Nothing was changed.
class Cancelled : public Fault {
public:
    Cancelled() : Fault{"Cancelled.", "", ""} {}
};

} // namespace fencewright
