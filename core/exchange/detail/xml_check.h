#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace fencewright::exchange::detail {

/// What a walk over an XML document found, before any parser with a tree sees it.
struct XmlOutline {
    std::string root; ///< local name of the first element
    std::size_t placemarks = 0;
    std::size_t tracks = 0;       ///< gx:Track and gx:MultiTrack
    std::size_t networkLinks = 0; ///< also gx:NetworkLink and NetworkLinkControl
    std::size_t overlays = 0;     ///< pictures laid on the ground or the screen
};

/// Walks the tags without building anything, in one pass and constant memory.
/// @throws Fault  declares entities, is nested more than 200 deep, or has a <coordinates> text that is not numbers:
///                names the line.
[[nodiscard]] XmlOutline outlineOf(std::string_view text, const std::string& path);

/// The document in an encoding that every parser here knows (UTF-8, US-ASCII or ISO-8859-1), declaration included.
/// @param encoding  the person's word; empty: what the declaration says.
/// @throws Fault  the encoding is not known here, or the text is not in it.
[[nodiscard]] std::string asReadableXml(std::string text, const std::string& encoding, const std::string& path);

} // namespace fencewright::exchange::detail
