// What GdalPixels can say of its bands.
#include "raster/appearance_proposal.h"
#include "raster/detail/gdal_pixels.h"
#include "raster/detail/value_range.h"
#include "units/number_notation.h"

#include <gdal.h>

#include <cctype>

namespace fencewright::raster::detail {

namespace {

// A word of its own, in small letters; digits may follow, as in "NIR2".
bool hasWord(const std::string& text, const std::string& word) {
    const auto isLetter = [](char letter) { return std::isalpha(static_cast<unsigned char>(letter)) != 0; };
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const std::size_t end = at + word.size();
        if ((at == 0 || !isLetter(text[at - 1])) && (end == text.size() || !isLetter(text[end])))
            return true;
    }
    return false;
}

bool saysInfrared(const std::string& written) {
    const std::string name = units::lowered(written);
    // Of the infrareds the one that is pictured like a colour is the near one.
    const bool farther = hasWord(name, "swir") || hasWord(name, "short wave") || hasWord(name, "shortwave") ||
                         hasWord(name, "thermal") || hasWord(name, "far");
    return !farther && (hasWord(name, "infrared") || hasWord(name, "nir") || hasWord(name, "ir"));
}

} // namespace

ValueRange rangeOf(std::vector<float> values) {
    ValueRange range;
    if (values.empty())
        return range;
    const auto [darkest, lightest] = std::minmax_element(values.begin(), values.end());
    range.darkest = *darkest;
    range.lightest = *lightest;
    const auto percentile = [&](double share) {
        const auto at = values.begin() + static_cast<std::ptrdiff_t>(share * static_cast<double>(values.size() - 1));
        std::nth_element(values.begin(), at, values.end());
        return static_cast<double>(*at);
    };
    range.low = percentile(0.02);
    range.high = percentile(0.98);
    if (!(range.high > range.low))
        range.high = range.low + 1.0; // all of one value
    return range;
}

AppearanceProposal GdalPixels::proposal(const Progress& progress) {
    AppearanceProposal proposal;
    proposal.palette = m_palette.size() > 0;
    for (std::size_t index = 0; index < 3; ++index)
        proposal.usual[index] = m_usualBands[std::min(index, m_usualBands.size() - 1)];

    const int count = GDALGetRasterCount(m_dataset.get());
    std::vector<int> numbers;
    for (int number = 1; number <= count; ++number) {
        AppearanceProposal::Band band;
        GDALRasterBandH handle = GDALGetRasterBand(m_dataset.get(), number);
        const GDALColorInterp colour = GDALGetRasterColorInterpretation(handle);
        const std::string written = GDALGetDescription(handle);
        band.shown = number != m_alphaBand;
        if (saysInfrared(written) && !proposal.infrared) {
            proposal.infrared = number;
            proposal.infraredIsNamed = true;
        }
        if (!written.empty())
            band.name = written;
        else if (colour != GCI_Undefined)
            band.name = colourWords(GDALGetColorInterpretationName(colour));
        else
            band.name = phrase("core", "Band %1")(number);
        proposal.bands.push_back(std::move(band));
        numbers.push_back(number);
    }
    const auto colourOf = [&](int number) {
        return GDALGetRasterColorInterpretation(GDALGetRasterBand(m_dataset.get(), number));
    };
    if (!proposal.infrared && count == 4 && colourOf(1) == GCI_RedBand && colourOf(2) == GCI_GreenBand &&
        colourOf(3) == GCI_BlueBand && colourOf(4) == GCI_Undefined) {
        proposal.infrared = 4;
        proposal.bands[3].name = phrase("core", "Near infrared");
    }
    if (proposal.infrared && m_usualBands.size() == 3 && proposal.usual[0] != *proposal.infrared)
        proposal.falseColour = {*proposal.infrared, proposal.usual[0], proposal.usual[1]};

    // All in one reading: what holds a pixel of one band mostly holds it of all.
    const auto [level, width, height] = coarseView();
    const std::size_t pixels = static_cast<std::size_t>(width) * static_cast<std::size_t>(height);
    std::vector<float> planes(pixels * numbers.size());
    readBands(level, {0, 0, m_levels[level].width, m_levels[level].height}, width, height, numbers,
              {planes.data(), GDT_Float32, sizeof(float), static_cast<std::ptrdiff_t>(pixels * sizeof(float))},
              progress);
    std::vector<std::uint8_t> alpha(pixels, 255);
    if (m_coverage == Coverage::AlphaBand || m_coverage == Coverage::MaskBand) {
        findFullAlpha(progress);
        readAlpha(level, {0, 0, m_levels[level].width, m_levels[level].height}, width, height, alpha.data(), 1,
                  progress);
    }
    for (std::size_t band = 0; band < numbers.size(); ++band) {
        const auto& noData = m_header.bands[band].noData;
        std::vector<float> values;
        for (std::size_t index = 0; index < pixels; ++index) {
            const float value = planes[band * pixels + index];
            if (std::isfinite(value) && alpha[index] > 0 && !(noData && value == static_cast<float>(*noData)))
                values.push_back(value);
        }
        const ValueRange range = rangeOf(std::move(values));
        proposal.bands[band].darkest = range.darkest;
        proposal.bands[band].lightest = range.lightest;
        proposal.bands[band].low = range.low;
        proposal.bands[band].high = range.high;
    }
    return proposal;
}

} // namespace fencewright::raster::detail
