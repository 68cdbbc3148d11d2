#include "raster/appearance_proposal.h"

#include "raster/detail/parts.h"

namespace fencewright::raster {

Wording detail::colourWords(const std::string& colour) {
    for (const Phrase& known : {phrase("core", "Red"), phrase("core", "Green"), phrase("core", "Blue"),
                                phrase("core", "Alpha"), phrase("core", "Palette")})
        if (colour == known.english)
            return known;
    return colour == "Gray" ? Wording{phrase("core", "Grey")} : Wording{colour};
}

// Of a source whose bands are what they seem: tiles of eight bits.
AppearanceProposal detail::PixelSource::proposal(const Progress&) {
    AppearanceProposal proposal;
    for (const BandDescription& band : header().bands) {
        AppearanceProposal::Band offered;
        offered.name = detail::colourWords(band.colour);
        offered.shown = band.colour != "Alpha";
        proposal.bands.push_back(offered);
    }
    if (proposal.bands.size() >= 3)
        proposal.usual = {1, 2, 3};
    return proposal;
}

AppearanceProposal proposeAppearance(const Dataset& dataset, const Progress& progress) {
    AppearanceProposal proposal = dataset.m_parts->pixels->source().proposal(progress);
    dataset.m_parts->pixels->count();
    return proposal;
}

} // namespace fencewright::raster
