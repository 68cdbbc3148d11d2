#pragma once

#include "geodesy/coordinate_notation.h"
#include "wording.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

// Private to the module.
namespace fencewright::geodesy {

/// Reads one place from a text: MGRS, UTM or angles, told apart by their form.
class PlaceParser {
public:
    /// @throws Fault  the text is far too long for a place.
    explicit PlaceParser(std::string_view text);

    /// @throws Fault  says which part cannot be read.
    model::Position place();

private:
    struct Number {
        double value = 0.0;
        bool whole = true; ///< written without a point
    };
    struct Minutes {
        double value = 0.0;
        bool marked = false;
    };
    struct SignedAngle {
        double degrees = 0.0;
        bool signGiven = false;
        char letter = 0; ///< N, S, E, W; 0: none
        std::string asWritten;
    };
    /// Whether minutes and seconds may follow degrees without marks: "46 12 31.84 N".
    enum class Marks { Needed, Optional };

    std::optional<model::Position> militaryGrid();
    std::optional<model::Position> utm();
    model::Position angles();

    std::optional<std::vector<SignedAngle>> readAngles(Marks marks);
    std::optional<SignedAngle> readAngle(Marks marks);
    std::optional<Minutes> readMinutes(Marks marks, bool afterColon, char mark, std::string_view notBefore);
    std::optional<Number> readNumber();
    char readLetter(std::string_view letters);
    bool skip(char mark);
    bool skipSpaces();
    [[nodiscard]] char peek(std::size_t ahead = 0) const;
    [[nodiscard]] bool atEnd() const { return m_at >= m_text.size(); }
    [[noreturn]] void refuse(const Wording& problem) const;

    std::string m_given; ///< for showing
    std::string m_text;  ///< with one spelling for each mark, and decimal points
    std::size_t m_at = 0;
    std::size_t m_farthest = 0; ///< how far any reading came: there it went wrong
};

} // namespace fencewright::geodesy
