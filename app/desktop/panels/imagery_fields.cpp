#include "desktop/panels/record_binding.h"
#include "desktop/panels/record_fields.h"
#include "session/translated.h"

#include <QCoreApplication>
#include <QLocale>
#include <QRegularExpression>

namespace fencewright::desktop {
namespace {

using Kind = FormField::Kind;
using Bands = std::array<int, 3>;
using Values = std::array<double, 2>;
using Proposal = std::shared_ptr<const raster::AppearanceProposal>;

QString tr(const char* text) { return QCoreApplication::translate("SourceForm", text); }

struct Offer {
    QString words;
    std::optional<Bands> bands;
};

std::vector<Offer> bandOffers(const raster::AppearanceProposal& proposal) {
    std::vector<Offer> offers{{tr("as the file says"), std::nullopt}};
    Bands natural{};
    for (std::size_t band = proposal.bands.size(); band-- > 0;)
        for (std::size_t colour = 0; colour < 3; ++colour)
            if (proposal.bands[band].name.english() == std::array{"Red", "Green", "Blue"}[colour])
                natural[colour] = int(band) + 1;
    if (natural[0] && natural[1] && natural[2] && natural != proposal.usual)
        offers.push_back({tr("natural colours"), natural});
    if (proposal.falseColour)
        offers.push_back({proposal.infraredIsNamed
                              ? tr("infrared false colour")
                              : tr("infrared false colour, if band %1 is infrared").arg(proposal.infrared.value_or(4)),
                          proposal.falseColour});
    return offers;
}

QString bandsText(const Bands& bands) { return QStringLiteral("%1, %2, %3").arg(bands[0]).arg(bands[1]).arg(bands[2]); }

std::optional<Bands> bandsFrom(const QString& typed, int count) {
    const QStringList parts = typed.split(QRegularExpression{"[\\s,;]+"}, Qt::SkipEmptyParts);
    if (parts.isEmpty())
        return std::nullopt;
    Bands bands{};
    bool good = parts.size() == 1 || parts.size() == 3;
    for (int i = 0; good && i < 3; ++i) {
        bands[std::size_t(i)] = parts[parts.size() == 1 ? 0 : i].toInt(&good);
        good = good && bands[std::size_t(i)] >= 1 && bands[std::size_t(i)] <= count;
    }
    if (!good)
        throw Fault{
            tr("These are no bands of this raster.").toStdString(), "",
            tr("Type three numbers from 1 to %1, for red, green and blue, or one for grey.").arg(count).toStdString()};
    return bands;
}

QString numberText(double value) { return QLocale::c().toString(value, 'g', 10); }

QString valuesText(const Values& values) {
    return QStringLiteral("%1 – %2").arg(numberText(values[0]), numberText(values[1]));
}

std::optional<Values> valuesFrom(const QString& typed) {
    const QStringList parts = QString{typed}.replace(QStringLiteral("–"), " ").split(' ', Qt::SkipEmptyParts);
    if (parts.isEmpty())
        return std::nullopt;
    bool first = false, second = false;
    const Values values{parts.value(0).toDouble(&first), parts.value(1).toDouble(&second)};
    if (parts.size() != 2 || !first || !second || !std::isfinite(values[0]) || !std::isfinite(values[1]) ||
        !(values[0] < values[1]))
        throw Fault{
            tr("This is no range of values.").toStdString(), "",
            tr("Type the value that becomes black and a greater one that becomes white: 120 3400.").toStdString()};
    return values;
}

/// Of the bands that are shown: from the least of one to the greatest of another.
Values rangeOf(const raster::AppearanceProposal& proposal, const std::optional<Bands>& bands,
               double raster::AppearanceProposal::Band::*low, double raster::AppearanceProposal::Band::*high) {
    std::optional<Values> range;
    for (const int number : bands.value_or(proposal.usual)) {
        if (number < 1 || std::size_t(number) > proposal.bands.size())
            continue;
        const auto& band = proposal.bands[std::size_t(number) - 1];
        const Values own{band.*low, band.*high};
        range = range ? Values{std::min((*range)[0], own[0]), std::max((*range)[1], own[1])} : own;
    }
    Values found = range.value_or(Values{0.0, 255.0});
    if (!(found[0] < found[1]))
        found[1] = found[0] + 1.0; // all of one value
    return found;
}

void addBands(std::vector<FormField>& fields, const RecordBinding<model::Source>& source, const Proposal& proposal) {
    const auto offers = bandOffers(*proposal);
    FormField colours;
    colours.kind = Kind::Choice;
    colours.name = "sourceColours";
    colours.label = tr("Colours");
    for (const Offer& offer : offers)
        colours.choices << offer.words;
    colours.choices << tr("bands as typed below");
    colours.readChoice = source.readChoice([offers](const model::Source& one) {
        for (std::size_t i = 0; i < offers.size(); ++i)
            if (one.bands == offers[i].bands)
                return int(i);
        return int(offers.size());
    });
    colours.writeChoice =
        source.writeChoice(tr("Change bands of %1"), [offers, proposal](model::Source& one, int choice) {
            if (std::size_t(choice) < offers.size())
                one.bands = offers[std::size_t(choice)].bands;
            else if (!one.bands)
                one.bands = proposal->usual;
        });
    fields.push_back(std::move(colours));

    FormField bands;
    bands.name = "sourceBands";
    bands.label = tr("Bands");
    bands.read =
        source.read([proposal](const model::Source& one) { return bandsText(one.bands.value_or(proposal->usual)); });
    bands.aside = source.read([proposal](const model::Source& one) {
        QStringList names;
        for (const int number : one.bands.value_or(proposal->usual))
            if (number >= 1 && std::size_t(number) <= proposal->bands.size())
                names << session::translated(proposal->bands[std::size_t(number) - 1].name);
        return names.join(", ");
    });
    bands.write = source.write(tr("Change bands of %1"), [proposal](model::Source& one, const QString& typed) {
        one.bands = bandsFrom(typed, int(proposal->bands.size()));
    });
    fields.push_back(std::move(bands));
}

void addStretch(std::vector<FormField>& fields, const RecordBinding<model::Source>& source, const Proposal& proposal) {
    using Band = raster::AppearanceProposal::Band;
    const auto offered = [proposal](const model::Source& one, int choice) -> std::optional<Values> {
        if (choice == 1)
            return rangeOf(*proposal, one.bands, &Band::low, &Band::high);
        if (choice == 2)
            return rangeOf(*proposal, one.bands, &Band::darkest, &Band::lightest);
        return std::nullopt;
    };
    FormField stretch;
    stretch.kind = Kind::Choice;
    stretch.name = "sourceStretch";
    stretch.label = tr("Light and dark");
    stretch.choices = {tr("automatic"), tr("leaving out the 2 % at each end"), tr("darkest to lightest"),
                       tr("values as typed below")};
    stretch.readChoice = source.readChoice([offered](const model::Source& one) {
        for (int choice = 0; choice < 3; ++choice)
            if (one.stretch == offered(one, choice))
                return choice;
        return 3;
    });
    stretch.writeChoice =
        source.writeChoice(tr("Change light and dark of %1"), [offered](model::Source& one, int choice) {
            if (choice < 3)
                one.stretch = offered(one, choice);
            else if (!one.stretch)
                one.stretch = offered(one, 1);
        });
    fields.push_back(std::move(stretch));

    FormField values;
    values.name = "sourceValues";
    values.label = tr("Values");
    values.placeholder = tr("automatic");
    values.read =
        source.read([](const model::Source& one) { return one.stretch ? valuesText(*one.stretch) : QString{}; });
    values.aside = source.read([](const model::Source&) { return tr("become black and white"); });
    values.write = source.write(tr("Change light and dark of %1"),
                                [](model::Source& one, const QString& typed) { one.stretch = valuesFrom(typed); });
    fields.push_back(std::move(values));
}

void addPyramid(std::vector<FormField>& fields, session::SourceLibrary& sources, const session::LoadedSource& loaded) {
    using session::PyramidState;
    auto* library = &sources;
    const model::SourceId id = loaded.source->id;
    FormField pyramid;
    pyramid.kind = Kind::Action;
    pyramid.name = "sourcePyramid";
    pyramid.label = tr("Seen as a whole");
    QString words;
    switch (loaded.pyramid) {
    case PyramidState::None:
        return;
    case PyramidState::Wanted:
        words = tr("Slow: it has no smaller pictures of itself. They can be put beside the file; the file itself stays "
                   "as it is.");
        break;
    case PyramidState::Building:
        words = tr("Its smaller pictures are being built; it can be used meanwhile.");
        break;
    case PyramidState::Ready:
        words = tr("Quick: smaller pictures were built, and are kept on this computer. Put beside the file, other "
                   "programs find them too.");
        break;
    case PyramidState::Failed:
        words = tr("Its smaller pictures could not be built. %1").arg(loaded.pyramidWords);
        break;
    }
    pyramid.read = [words] { return words; };
    if (loaded.pyramid == PyramidState::Building) {
        pyramid.choices = {tr("Stop")};
        pyramid.write = [library, id](const QString&) { library->cancelPyramid(id); };
    } else {
        pyramid.choices = {tr("Put beside the file")};
        pyramid.write = [library, id](const QString&) { library->buildPyramid(id, session::PyramidPlace::Beside); };
    }
    fields.push_back(std::move(pyramid));
}

} // namespace

std::vector<FormField> imageryFields(session::OpenDocument& document, session::SourceLibrary& sources,
                                     const model::SourceId& id) {
    const RecordBinding<model::Source> source{document, id};
    std::vector<FormField> fields;
    const session::LoadedSource* loaded = sources.find(id);
    if (!loaded || !loaded->raster)
        return fields;
    const bool ofServer = raster::isServerAddress(loaded->source->path);
    if (const Proposal& proposal = loaded->proposal; proposal && !proposal->palette && !ofServer) {
        const auto shown =
            std::count_if(proposal->bands.begin(), proposal->bands.end(), [](const auto& band) { return band.shown; });
        if (shown > 1)
            addBands(fields, source, proposal);
        addStretch(fields, source, proposal);
    }
    if (!ofServer)
        addPyramid(fields, sources, *loaded);
    QStringList notes;
    for (const Wording& note : loaded->raster->notes)
        notes << session::translated(note);
    if (ofServer)
        notes << tr("Imagery of a server may be years old and lie metres beside its true place. Tiles are kept on this "
                    "computer for a week, or as long as the server says.");
    if (!notes.isEmpty()) {
        FormField statement;
        statement.kind = Kind::Statement;
        statement.name = "sourceNotes";
        statement.label = tr("Worth knowing");
        statement.read = [notes] { return notes.join("\n"); };
        fields.push_back(std::move(statement));
    }
    return fields;
}

} // namespace fencewright::desktop
