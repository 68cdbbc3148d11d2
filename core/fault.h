#pragma once

#include "wording.h"

#include <stdexcept>
#include <string>
#include <utility>

namespace fencewright {

/// Problem, place and remedy of a fault, such as can be said in the language of the window.
struct FaultWords {
    Wording problem;
    Wording place;
    Wording remedy;
};

/// Something could not be done. Carries what a person needs: the problem, where it is, and what to do about it.
///
/// A fault is for work that cannot go on. What is wrong with a fence set is not a fault but an audit::Finding.
class Fault : public std::runtime_error {
public:
    /// @param problem  one sentence: what is wrong.
    /// @param place    file, layer, feature, line or coordinate; empty where there is none.
    /// @param remedy   one sentence: what the person can do.
    Fault(Wording problem, Wording place, Wording remedy)
        : Fault{FaultWords{std::move(problem), std::move(place), std::move(remedy)}} {}
    explicit Fault(FaultWords words)
        : std::runtime_error{sentence(words.problem.english(), words.place.english(), words.remedy.english())},
          m_words{std::move(words)}, m_problem{m_words.problem.english()}, m_place{m_words.place.english()},
          m_remedy{m_words.remedy.english()} {}

    [[nodiscard]] const FaultWords& words() const { return m_words; }
    // In English.
    [[nodiscard]] const std::string& problem() const { return m_problem; }
    [[nodiscard]] const std::string& place() const { return m_place; }
    [[nodiscard]] const std::string& remedy() const { return m_remedy; }

private:
    static std::string sentence(const std::string& problem, const std::string& place, const std::string& remedy) {
        std::string text = place.empty() ? problem : place + ": " + problem;
        return remedy.empty() ? text : text + " " + remedy;
    }

    FaultWords m_words;
    std::string m_problem;
    std::string m_place;
    std::string m_remedy;
};

/// The person asked for the work to stop. Nothing was changed.
class Cancelled : public Fault {
public:
    Cancelled() : Fault{phrase("core", "Cancelled."), "", ""} {}
};

} // namespace fencewright
