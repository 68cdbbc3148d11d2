#include "desktop/panels/record_fields.h"

#include "desktop/panels/entry_notation.h"
#include "desktop/panels/record_binding.h"
#include "geodesy/coordinate_notation.h"
#include "geodesy/geodesic.h"

#include <QCoreApplication>

#include <algorithm>

namespace fencewright::desktop {
namespace {

using Kind = FormField::Kind;
using Binding = RecordBinding<model::Fence>;

QString tr(const char* text) { return QCoreApplication::translate("FenceForm", text); }
QString text(const std::string& words) { return QString::fromStdString(words); }

/// The fields of one alternative of the shape.
struct ShapeFields {
    std::vector<FormField>& fields;
    const Binding& fence;
    session::OpenDocument& document;
    const session::Settings& settings;

    template <class ShapeType>
    FormField lengthField(const char* name, const QString& label, const QString& title, StatedLength ShapeType::*member,
                          LengthRange range) const {
        const auto* of = &settings;
        FormField field;
        field.name = name;
        field.label = label;
        field.read = fence.read([of, member](const model::Fence& one) {
            const auto* shape = std::get_if<ShapeType>(&one.shape);
            return shape ? lengthText(shape->*member, of->unitSystem()) : QString{};
        });
        field.aside = fence.read([of, member](const model::Fence& one) {
            const auto* shape = std::get_if<ShapeType>(&one.shape);
            return shape ? lengthAside(shape->*member, of->unitSystem()) : QString{};
        });
        field.write = fence.write(title, [of, member, range](model::Fence& one, const QString& typed) {
            if (auto* shape = std::get_if<ShapeType>(&one.shape))
                shape->*member = lengthFrom(typed, of->unitSystem(), range);
        });
        return field;
    }

    FormField statement(const char* name, const QString& label,
                        const std::function<QString(const model::Fence&)>& words) const {
        FormField field;
        field.kind = Kind::Statement;
        field.name = name;
        field.label = label;
        field.read = fence.read(words);
        return field;
    }

    void operator()(const model::DrawnPolygon&) const {
        fields.push_back(statement("fenceCorners", tr("Corners"), [](const model::Fence& one) {
            const auto* shape = std::get_if<model::DrawnPolygon>(&one.shape);
            if (!shape)
                return QString{};
            const auto corners = shape->polygon.shell.corners.size();
            const auto holes = shape->polygon.holes.size();
            return holes ? tr("%1, and %2 holes").arg(corners).arg(holes) : QString::number(corners);
        }));
    }
    void operator()(const model::Circle&) const {
        const auto* of = &settings;
        fields.push_back(lengthField<model::Circle>("fenceRadius", tr("Radius"), tr("Change radius of %1"),
                                                    &model::Circle::radius, LengthRange::Positive));
        FormField centre;
        centre.name = "fenceCentre";
        centre.label = tr("Centre");
        centre.read = fence.read([of](const model::Fence& one) {
            const auto* circle = std::get_if<model::Circle>(&one.shape);
            return circle ? text(geodesy::format(circle->centre, of->notation())) : QString{};
        });
        centre.write = fence.write(tr("Move %1"), [](model::Fence& one, const QString& typed) {
            if (auto* circle = std::get_if<model::Circle>(&one.shape))
                circle->centre = geodesy::parsePosition(typed.toStdString());
        });
        fields.push_back(std::move(centre));
    }
    void operator()(const model::Corridor&) const {
        const auto* of = &settings;
        const auto width = [&](const char* name, const QString& label, StatedLength model::Corridor::*member) {
            FormField field =
                lengthField<model::Corridor>(name, label, tr("Change width of %1"), member, LengthRange::NotNegative);
            field.write = fence.write(tr("Change width of %1"), [of, member](model::Fence& one, const QString& typed) {
                auto* corridor = std::get_if<model::Corridor>(&one.shape);
                if (!corridor)
                    return;
                corridor->*member = lengthFrom(typed, of->unitSystem(), LengthRange::NotNegative);
                if (corridor->left.length == Length{} && corridor->right.length == Length{})
                    throw Fault{tr("The corridor would have no width.").toStdString(), "",
                                tr("One side may be zero: change the other one first.").toStdString()};
            });
            fields.push_back(std::move(field));
        };
        width("fenceLeft", tr("Left of the line"), &model::Corridor::left);
        width("fenceRight", tr("Right of the line"), &model::Corridor::right);
        fields.push_back(statement("fenceLine", tr("Line"), [of](const model::Fence& one) {
            const auto* corridor = std::get_if<model::Corridor>(&one.shape);
            if (!corridor)
                return QString{};
            try {
                return tr("%1 corners, %2 long")
                    .arg(corridor->line.size())
                    .arg(text(units::formatLength(geodesy::lengthOf(corridor->line), of->unitSystem())));
            } catch (const Fault&) {
                return tr("%1 corners").arg(corridor->line.size());
            }
        }));
    }
    void operator()(const model::Setback& setback) const {
        fields.push_back(lengthField<model::Setback>("fenceDistance", tr("Distance"), tr("Change distance of %1"),
                                                     &model::Setback::distance, LengthRange::Positive));
        const RecordBinding<model::Site> site{document, setback.site};
        const auto* of = &settings;
        FormField error;
        error.name = "fencePositionError";
        error.label = tr("Position error");
        error.read =
            site.read([of](const model::Site& one) { return lengthText(one.positionError, of->unitSystem()); });
        error.aside = site.read([](const model::Site& one) { return text(one.positionSource); });
        error.write = site.write(tr("Change position error of %1"), [of](model::Site& one, const QString& typed) {
            one.positionError = lengthFrom(typed, of->unitSystem(), LengthRange::NotNegative);
        });
        fields.push_back(std::move(error));
        FormField confidential;
        confidential.kind = Kind::Check;
        confidential.name = "fenceConfidential";
        confidential.label = tr("Confidential: the site is not delivered");
        confidential.read = site.read([](const model::Site& one) { return one.confidential ? "1" : ""; });
        confidential.write = site.write(tr("Change confidentiality of %1"), [](model::Site& one, const QString& typed) {
            one.confidential = !typed.isEmpty();
        });
        fields.push_back(std::move(confidential));
    }
    void operator()(const model::ParcelUnion& shape) const {
        fields.push_back(lengthField<model::ParcelUnion>("fenceClosing", tr("Close gaps up to"),
                                                         tr("Change closing of %1"), &model::ParcelUnion::closing,
                                                         LengthRange::NotNegative));
        fields.push_back(
            statement("fenceParcels", isOfParcels(shape) ? tr("Parcels") : tr("Pieces"), [](const model::Fence& one) {
                const auto* parcels = std::get_if<model::ParcelUnion>(&one.shape);
                if (!parcels)
                    return QString{};
                if (!isOfParcels(*parcels))
                    return QString::number(parcels->parcels.size());
                QStringList numbers;
                for (const model::Parcel& parcel : parcels->parcels)
                    numbers << (parcel.number.empty() ? tr("without number") : text(parcel.number));
                return numbers.join(", ");
            }));
    }
};

/// Value and reference of a limit: the first choice is "no limit".
FormField limitField(const Binding& fence, const session::Settings& settings, const char* name, const QString& label,
                     const QString& none, const QString& title,
                     std::optional<model::HeightLimit> model::HeightBand::*limit) {
    const auto* of = &settings;
    FormField field;
    field.name = name;
    field.label = label;
    field.placeholder = none;
    field.choices = {tr("no limit"), tr("over ground"), tr("over sea"), tr("ellipsoid")};
    field.read = fence.read([of, limit](const model::Fence& one) {
        const auto& value = one.band.*limit;
        return value ? lengthText(value->value, of->unitSystem()) : QString{};
    });
    field.write = fence.write(title, [of, limit](model::Fence& one, const QString& typed) {
        auto& value = one.band.*limit;
        if (typed.trimmed().isEmpty()) {
            value.reset();
            return;
        }
        const StatedLength height = lengthFrom(typed, of->unitSystem(), LengthRange::Any);
        value = model::HeightLimit{height, value ? value->reference : model::HeightReference::Ground};
    });
    field.readChoice = fence.readChoice([limit](const model::Fence& one) {
        const auto& value = one.band.*limit;
        return value ? int(value->reference) + 1 : 0;
    });
    field.writeChoice = fence.writeChoice(title, [limit, label](model::Fence& one, int choice) {
        auto& value = one.band.*limit;
        if (choice == 0)
            value.reset();
        else if (value)
            value->reference = model::HeightReference(choice - 1);
        else
            throw Fault{tr("Type the height first.").toStdString(), label.toStdString(),
                        tr("For example 120 m or 400 ft.").toStdString()};
    });
    return field;
}

std::vector<FormField> periodFields(const Binding& fence) {
    FormField season;
    season.name = "fenceSeason";
    season.label = tr("Season");
    season.placeholder = tr("all year");
    season.read = fence.read([](const model::Fence& one) { return seasonText(one.period.season); });
    season.aside = fence.read([](const model::Fence& one) { return one.period.season ? tr("every year") : QString{}; });
    season.write = fence.write(tr("Change season of %1"),
                               [](model::Fence& one, const QString& typed) { one.period.season = seasonFrom(typed); });
    const auto end = [&fence](const char* name, const QString& label, const QString& none,
                              std::optional<model::Date> model::ActivePeriod::*date) {
        FormField field;
        field.name = name;
        field.label = label;
        field.placeholder = none;
        field.read = fence.read([date](const model::Fence& one) { return dateText(one.period.*date); });
        field.aside = fence.read(
            [date](const model::Fence& one) { return one.period.*date ? tr("that day included") : QString{}; });
        field.write = fence.write(tr("Change validity of %1"), [date](model::Fence& one, const QString& typed) {
            one.period.*date = dateFrom(typed);
            const auto& period = one.period;
            if (period.from && period.until && *period.from > *period.until)
                throw Fault{tr("The last day would lie before the first.").toStdString(), "",
                            tr("Change the other one first, or leave it empty.").toStdString()};
        });
        return field;
    };
    return {std::move(season), end("fenceFrom", tr("Valid from"), tr("always"), &model::ActivePeriod::from),
            end("fenceUntil", tr("Valid until"), tr("further notice"), &model::ActivePeriod::until)};
}

std::vector<FormField> basisFields(const Binding& fence, const session::Settings& settings) {
    const auto* of = &settings;
    std::vector<FormField> fields;
    FormField kind;
    kind.kind = Kind::Choice;
    kind.name = "fenceBasisKind";
    kind.label = tr("Basis");
    kind.choices = {tr("not given yet"), tr("permit"), tr("lease"), tr("guideline"), tr("agreement"), tr("judgement")};
    kind.readChoice = fence.readChoice([](const model::Fence& one) { return int(one.basis.kind); });
    kind.writeChoice = fence.writeChoice(
        tr("Change basis of %1"), [](model::Fence& one, int choice) { one.basis.kind = model::BasisKind(choice); });
    fields.push_back(std::move(kind));
    const auto words = [&](const char* name, const QString& label, const QString& placeholder,
                           std::string model::Basis::*member) {
        FormField field;
        field.name = name;
        field.label = label;
        field.placeholder = placeholder;
        field.read = fence.read([member](const model::Fence& one) { return text(one.basis.*member); });
        field.write = fence.write(tr("Change basis of %1"), [member](model::Fence& one, const QString& typed) {
            one.basis.*member = typed.trimmed().toStdString();
        });
        return field;
    };
    fields.push_back(words("fenceCitation", tr("Citation"), tr("title, number, page"), &model::Basis::citation));
    FormField stated;
    stated.name = "fenceBasisDistance";
    stated.label = tr("States");
    stated.placeholder = tr("a distance");
    stated.read = fence.read([of](const model::Fence& one) {
        return one.basis.distance ? lengthText(*one.basis.distance, of->unitSystem()) : QString{};
    });
    stated.aside = fence.read([of](const model::Fence& one) {
        return one.basis.distance ? lengthAside(*one.basis.distance, of->unitSystem()) : QString{};
    });
    stated.write = fence.write(tr("Change basis of %1"), [of](model::Fence& one, const QString& typed) {
        if (typed.trimmed().isEmpty())
            one.basis.distance.reset();
        else
            one.basis.distance = lengthFrom(typed, of->unitSystem(), LengthRange::Positive);
    });
    fields.push_back(std::move(stated));
    FormField date;
    date.name = "fenceBasisDate";
    date.label = tr("Dated");
    date.placeholder = QStringLiteral("2026-05-14");
    date.read = fence.read([](const model::Fence& one) { return dateText(one.basis.date); });
    date.aside =
        fence.read([](const model::Fence& one) { return one.basis.date ? dateWords(*one.basis.date) : QString{}; });
    date.write = fence.write(tr("Change basis of %1"),
                             [](model::Fence& one, const QString& typed) { one.basis.date = dateFrom(typed); });
    fields.push_back(std::move(date));
    fields.push_back(words("fenceWho", tr("Given by"), tr("person or office"), &model::Basis::who));
    return fields;
}

} // namespace

bool isOfParcels(const model::ParcelUnion& shape) {
    return std::any_of(shape.parcels.begin(), shape.parcels.end(),
                       [](const model::Parcel& parcel) { return !parcel.number.empty(); });
}

std::vector<FormField> fenceFields(session::OpenDocument& document, const session::Settings& settings,
                                   const std::vector<model::FenceId>& ids) {
    const Binding fence{document, ids};
    const bool alone = ids.size() == 1;
    std::vector<FormField> fields;
    FormField name;
    name.name = "fenceName";
    name.label = tr("Name");
    name.read = fence.read([](const model::Fence& one) { return text(one.name); });
    name.write = fence.write(tr("Rename %1"), [](model::Fence& one, const QString& typed) {
        if (typed.trimmed().isEmpty())
            throw Fault{tr("A fence needs a name.").toStdString(), "",
                        tr("Findings and deliveries speak of it by name.").toStdString()};
        one.name = typed.trimmed().toStdString();
    });
    if (alone)
        fields.push_back(std::move(name));
    FormField kind;
    kind.kind = Kind::Choice;
    kind.name = "fenceKind";
    kind.label = tr("Rule");
    kind.choices = {tr("keep-in: stay inside"), tr("keep-out: stay outside")};
    kind.readChoice = fence.readChoice([](const model::Fence& one) { return int(one.kind); });
    kind.writeChoice = fence.writeChoice(tr("Change rule of %1"),
                                         [](model::Fence& one, int choice) { one.kind = model::FenceKind(choice); });
    fields.push_back(std::move(kind));
    if (const model::Fence* now = alone ? fence.find() : nullptr)
        std::visit(ShapeFields{fields, fence, document, settings}, now->shape);
    fields.push_back(limitField(fence, settings, "fenceFloor", tr("Floor"), tr("ground"), tr("Change floor of %1"),
                                &model::HeightBand::floor));
    fields.push_back(limitField(fence, settings, "fenceCeiling", tr("Ceiling"), tr("none"), tr("Change ceiling of %1"),
                                &model::HeightBand::ceiling));
    for (FormField& field : periodFields(fence))
        fields.push_back(std::move(field));
    for (FormField& field : basisFields(fence, settings))
        fields.push_back(std::move(field));
    FormField enabled;
    enabled.kind = Kind::Check;
    enabled.name = "fenceEnabled";
    enabled.label = tr("Switched on: audited and delivered");
    enabled.read = fence.read([](const model::Fence& one) { return one.enabled ? "1" : ""; });
    enabled.write =
        fence.write(tr("Switch %1"), [](model::Fence& one, const QString& typed) { one.enabled = !typed.isEmpty(); });
    fields.push_back(std::move(enabled));
    fields.push_back(lockField(fence, "fenceLocked"));
    FormField notes;
    notes.kind = Kind::Notes;
    notes.name = "fenceNotes";
    notes.label = tr("Notes");
    notes.read = fence.read([](const model::Fence& one) { return text(one.notes); });
    notes.write = fence.write(tr("Change notes of %1"),
                              [](model::Fence& one, const QString& typed) { one.notes = typed.toStdString(); });
    if (alone)
        fields.push_back(std::move(notes));
    return fields;
}

} // namespace fencewright::desktop
