#include "raster/appearance_proposal.h"

#include "raster/detail/parts.h"

namespace fencewright::raster {

// Of a source whose bands are what they seem: tiles of eight bits.
AppearanceProposal detail::PixelSource::proposal(const Progress&) {
    AppearanceProposal proposal;
    for (const BandDescription& band : header().bands) {
        AppearanceProposal::Band offered;
        offered.name = band.colour;
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
