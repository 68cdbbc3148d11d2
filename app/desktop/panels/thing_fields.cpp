#include "desktop/panels/record_fields.h"

#include "desktop/panels/entry_notation.h"
#include "desktop/panels/record_binding.h"
#include "exchange/database_address.h"
#include "exchange/import.h"
#include "geodesy/coordinate_notation.h"
#include "session/given_names.h"

#include <QCoreApplication>

namespace fencewright::desktop {
namespace {

using Kind = FormField::Kind;

QString tr(const char* text) { return QCoreApplication::translate("SiteForm", text); }
QString text(const std::string& words) { return QString::fromStdString(words); }

template <class T>
FormField wordsField(const RecordBinding<T>& thing, const char* name, const QString& label, const QString& placeholder,
                     const QString& title, std::string T::*member) {
    FormField field;
    field.name = name;
    field.label = label;
    field.placeholder = placeholder;
    field.read = thing.read([member](const T& one) { return text(one.*member); });
    field.write =
        thing.write(title, [member](T& one, const QString& typed) { one.*member = typed.trimmed().toStdString(); });
    return field;
}

template <class T> FormField nameField(const RecordBinding<T>& thing, const char* name) {
    FormField field = wordsField<T>(thing, name, tr("Name"), {}, {}, &T::name);
    field.write = thing.write(tr("Rename %1"), [](T& one, const QString& typed) {
        if (typed.trimmed().isEmpty())
            throw Fault{tr("It needs a name.").toStdString(), "",
                        tr("Findings and lists speak of it by name.").toStdString()};
        one.name = typed.trimmed().toStdString();
    });
    return field;
}

template <class T> FormField notesField(const RecordBinding<T>& thing, const char* name) {
    FormField field = wordsField<T>(thing, name, tr("Notes"), {}, {}, &T::notes);
    field.kind = Kind::Notes;
    field.write =
        thing.write(tr("Change notes of %1"), [](T& one, const QString& typed) { one.notes = typed.toStdString(); });
    return field;
}

} // namespace

std::vector<FormField> siteFields(session::OpenDocument& document, const session::Settings& settings,
                                  const std::vector<model::SiteId>& ids) {
    const RecordBinding<model::Site> site{document, ids};
    const bool alone = ids.size() == 1;
    const auto* of = &settings;
    std::vector<FormField> fields;
    if (alone)
        fields.push_back(nameField(site, "siteName"));
    fields.push_back(wordsField(site, "siteCategory", tr("Kind of site"), tr("nest, school, store …"),
                                tr("Change kind of %1"), &model::Site::category));
    const model::Site* now = alone ? site.find() : nullptr;
    if (now && std::holds_alternative<model::Position>(now->geometry)) {
        FormField place;
        place.name = "sitePlace";
        place.label = tr("Place");
        place.read = site.read([of](const model::Site& one) {
            const auto* at = std::get_if<model::Position>(&one.geometry);
            return at ? text(geodesy::format(*at, of->notation())) : QString{};
        });
        place.write = site.write(tr("Move %1"), [](model::Site& one, const QString& typed) {
            one.geometry = geodesy::parsePosition(typed.toStdString());
        });
        fields.push_back(std::move(place));
    } else if (now) {
        FormField shape;
        shape.kind = Kind::Statement;
        shape.name = "siteShape";
        shape.label = tr("Shape");
        shape.read = site.read([](const model::Site& one) {
            if (const auto* line = std::get_if<model::LineString>(&one.geometry))
                return tr("a line of %1 corners").arg(line->size());
            if (const auto* area = std::get_if<model::Polygon>(&one.geometry))
                return tr("an area of %1 corners").arg(area->shell.corners.size());
            return QString{};
        });
        fields.push_back(std::move(shape));
    }
    FormField error;
    error.name = "sitePositionError";
    error.label = tr("Position error");
    error.read = site.read([of](const model::Site& one) { return lengthText(one.positionError, of->unitSystem()); });
    error.aside = site.read([](const model::Site&) { return tr("added to setbacks"); });
    error.write = site.write(tr("Change position error of %1"), [of](model::Site& one, const QString& typed) {
        one.positionError = lengthFrom(typed, of->unitSystem(), LengthRange::NotNegative);
    });
    fields.push_back(std::move(error));
    fields.push_back(wordsField(site, "sitePositionSource", tr("Found by"), tr("hand-held GNSS, map, survey …"),
                                tr("Change source of %1"), &model::Site::positionSource));
    FormField setback;
    setback.kind = Kind::Command;
    setback.name = "siteSetback";
    setback.label = tr("New setback");
    setback.placeholder = QStringLiteral("1/4 mi");
    setback.choices = {tr("Keep out")};
    setback.write = [site, &document, of](const QString& typed) {
        const model::Site* one = site.find();
        if (!one)
            return;
        model::Fence fence = exchange::setbackFence(*one, lengthFrom(typed, of->unitSystem(), LengthRange::Positive),
                                                    session::inWindowLanguage());
        model::Edit edit = model::addFence(document.set(), std::move(fence));
        edit.title = tr("Give %1 a setback").arg(text(one->name)).toStdString();
        document.push(std::move(edit));
    };
    if (alone)
        fields.push_back(std::move(setback));
    FormField confidential;
    confidential.kind = Kind::Check;
    confidential.name = "siteConfidential";
    confidential.label = tr("Confidential: place and name not delivered");
    confidential.read = site.read([](const model::Site& one) { return one.confidential ? "1" : ""; });
    confidential.write = site.write(tr("Change confidentiality of %1"), [](model::Site& one, const QString& typed) {
        one.confidential = !typed.isEmpty();
    });
    fields.push_back(std::move(confidential));
    fields.push_back(lockField(site, "siteLocked"));
    if (alone)
        fields.push_back(notesField(site, "siteNotes"));
    return fields;
}

std::vector<FormField> homeFields(session::OpenDocument& document, const session::Settings& settings,
                                  const std::vector<model::HomeId>& ids) {
    const RecordBinding<model::Home> home{document, ids};
    const bool alone = ids.size() == 1;
    const auto* of = &settings;
    std::vector<FormField> fields;
    if (alone)
        fields.push_back(nameField(home, "homeName"));
    FormField kind;
    kind.kind = Kind::Choice;
    kind.name = "homeKind";
    kind.label = tr("Kind");
    kind.choices = {tr("home: starts and returns here"), tr("alternate: may land here")};
    kind.readChoice = home.readChoice([](const model::Home& one) { return int(one.kind); });
    kind.writeChoice = home.writeChoice(tr("Change kind of %1"),
                                        [](model::Home& one, int choice) { one.kind = model::HomeKind(choice); });
    fields.push_back(std::move(kind));
    FormField place;
    place.name = "homePlace";
    place.label = tr("Place");
    place.read = home.read([of](const model::Home& one) { return text(geodesy::format(one.place, of->notation())); });
    place.write = home.write(tr("Move %1"), [](model::Home& one, const QString& typed) {
        one.place = geodesy::parsePosition(typed.toStdString());
    });
    if (alone)
        fields.push_back(std::move(place));
    FormField radius;
    radius.name = "homeRadius";
    radius.label = tr("Landing radius");
    radius.read = home.read([of](const model::Home& one) { return lengthText(one.landingRadius, of->unitSystem()); });
    radius.aside = home.read([of](const model::Home& one) { return lengthAside(one.landingRadius, of->unitSystem()); });
    radius.write = home.write(tr("Change landing radius of %1"), [of](model::Home& one, const QString& typed) {
        one.landingRadius = lengthFrom(typed, of->unitSystem(), LengthRange::Positive);
    });
    fields.push_back(std::move(radius));
    fields.push_back(lockField(home, "homeLocked"));
    if (alone)
        fields.push_back(notesField(home, "homeNotes"));
    return fields;
}

std::vector<FormField> sourceFields(session::OpenDocument& document, session::SourceLibrary& sources,
                                    const model::SourceId& id) {
    const RecordBinding<model::Source> source{document, id};
    const auto* library = &sources;
    std::vector<FormField> fields;
    fields.push_back(nameField(source, "sourceName"));
    FormField state;
    state.kind = Kind::Statement;
    state.name = "sourceState";
    state.label = tr("State");
    state.read = source.read([library](const model::Source& one) {
        const auto* loaded = library->find(one.id);
        if (!loaded || loaded->state == session::LoadedSource::State::Loading)
            return tr("Being read …");
        if (loaded->state == session::LoadedSource::State::Failed)
            return loaded->words;
        if (loaded->raster) {
            const QString what =
                tr("%1, %2 × %3 pixels, %4")
                    .arg(text(loaded->raster->format))
                    .arg(loaded->raster->width)
                    .arg(loaded->raster->height)
                    .arg(loaded->raster->crs.empty() ? tr("place unknown") : text(loaded->raster->crs));
            if (loaded->trouble.isEmpty())
                return what;
            return (raster::isServerAddress(one.path) ? tr("Refused: %1 %2") : tr("Damaged: %1 %2"))
                .arg(loaded->trouble, what);
        }
        if (loaded->layer) {
            const QString what = tr("%1, features read: %2, left out: %3, %4")
                                     .arg(text(loaded->layer->about().format))
                                     .arg(loaded->layer->size())
                                     .arg(loaded->layer->about().featuresLeftOut)
                                     .arg(text(loaded->layer->about().crs));
            return loaded->words.isEmpty() ? what : loaded->words + " " + what;
        }
        return QString{};
    });
    fields.push_back(std::move(state));
    FormField visible;
    visible.kind = Kind::Check;
    visible.name = "sourceVisible";
    visible.label = tr("Shown on the map");
    visible.read = source.read([](const model::Source& one) { return one.visible ? "1" : ""; });
    visible.write = source.write(tr("Show or hide %1"),
                                 [](model::Source& one, const QString& typed) { one.visible = !typed.isEmpty(); });
    fields.push_back(std::move(visible));
    FormField opacity;
    opacity.kind = Kind::Slider;
    opacity.name = "sourceOpacity";
    opacity.label = tr("Opacity");
    opacity.read = source.read([](const model::Source& one) { return QString::number(qRound(one.opacity * 100)); });
    opacity.aside = source.read([](const model::Source& one) { return tr("%1 %").arg(qRound(one.opacity * 100)); });
    // All moves of the slider until something else happens are one step to undo; the form is made anew for each choice
    // of a source, and its gesture with it.
    const std::uint64_t gesture = std::hash<std::string>{}(model::freshIdValue()) | 1U;
    opacity.write = [source, gesture](const QString& typed) {
        source.change(
            tr("Change opacity of %1"), [&](model::Source& one) { one.opacity = typed.toInt() / 100.0; }, gesture);
    };
    fields.push_back(std::move(opacity));
    FormField captured;
    captured.name = "sourceCaptured";
    captured.label = tr("Captured");
    captured.placeholder = QStringLiteral("2026-05-14");
    captured.read = source.read([](const model::Source& one) { return dateText(one.captured); });
    captured.aside =
        source.read([](const model::Source& one) { return one.captured ? dateWords(*one.captured) : tr("unknown"); });
    captured.write = source.write(tr("Change date of %1"),
                                  [](model::Source& one, const QString& typed) { one.captured = dateFrom(typed); });
    fields.push_back(std::move(captured));
    fields.push_back(wordsField(source, "sourceCrs", tr("Coordinates"), tr("the file's own"),
                                tr("Change coordinate system of %1"), &model::Source::crs));
    const model::Source* now = source.find();
    const auto* loaded = library->find(id);
    if (now && now->kind == model::SourceKind::Imagery)
        for (FormField& field : imageryFields(document, sources, id))
            fields.push_back(std::move(field));
    if (now && now->kind == model::SourceKind::Reference) {
        QStringList columns{tr("none")};
        if (loaded && loaded->layer)
            for (const std::string& column : loaded->layer->about().fields)
                columns << text(column);
        const auto columnField = [&](const char* name, const QString& label, std::string model::Source::*member) {
            FormField field;
            field.kind = Kind::Choice;
            field.name = name;
            field.label = label;
            field.choices = columns;
            if (const QString named = text(now->*member); !named.isEmpty() && !columns.contains(named))
                field.choices << named;
            const QStringList choices = field.choices;
            field.readChoice = source.readChoice([member, choices](const model::Source& one) {
                return (one.*member).empty() ? 0 : std::max(0, int(choices.indexOf(text(one.*member))));
            });
            field.writeChoice =
                source.writeChoice(tr("Change columns of %1"), [member, choices](model::Source& one, int choice) {
                    one.*member = choice <= 0 ? std::string{} : choices.value(choice).toStdString();
                });
            return field;
        };
        fields.push_back(columnField("sourceLabel", tr("Label column"), &model::Source::labelField));
        fields.push_back(columnField("sourceNumber", tr("Parcel number"), &model::Source::numberField));
        FormField filter = wordsField(source, "sourceFilter", tr("Only where"), tr("all features"),
                                      tr("Change filter of %1"), &model::Source::filter);
        filter.refusal = [library, id] {
            const auto* known = library->find(id);
            return known && known->isFilterRefused ? known->words : QString{};
        };
        fields.push_back(std::move(filter));
    }
    FormField path;
    path.kind = Kind::Statement;
    path.name = "sourcePath";
    path.label = now && exchange::isDatabaseAddress(now->path) ? tr("Table")
                 : now && raster::isServerAddress(now->path)   ? tr("Server")
                                                               : tr("File");
    path.read = source.read([library](const model::Source& one) {
        const auto* known = library->find(one.id);
        if (exchange::isDatabaseAddress(one.path))
            return text(one.layer);
        return known ? known->path : text(one.path);
    });
    fields.push_back(std::move(path));
    if (now && exchange::isDatabaseAddress(now->path)) {
        FormField server;
        server.kind = Kind::Statement;
        server.name = "sourceServer";
        server.label = tr("Server");
        // Without what is the same of all: the column is narrow.
        server.read = source.read([](const model::Source& one) {
            const QString address = text(one.path);
            return address.mid(address.indexOf("://") + 3);
        });
        fields.push_back(std::move(server));
    }
    return fields;
}

} // namespace fencewright::desktop
