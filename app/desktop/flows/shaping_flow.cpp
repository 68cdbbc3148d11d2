#include "desktop/flows/shaping_flow.h"

#include "desktop/dialogs/offset_dialog.h"
#include "desktop/window_actions.h"
#include "session/given_names.h"
#include "session/translated.h"

#include <QtWidgets>

namespace fencewright::desktop {
namespace {

constexpr double kDuplicatePixels = 24.0; // to the east and south, so that the copy is seen beside what it is of

} // namespace

ShapingFlow::ShapingFlow(QWidget& window, session::OpenDocument& document, session::Settings& settings, MapCanvas& map,
                         MessageBar& messages)
    : m_window{window}, m_document{document}, m_settings{settings}, m_map{map}, m_messages{messages} {}

void ShapingFlow::connectTo(const WindowActions& actions) {
    connect(actions.unite, &QAction::triggered, this, &ShapingFlow::unite);
    connect(actions.takeOut, &QAction::triggered, this, &ShapingFlow::takeOut);
    connect(actions.intersect, &QAction::triggered, this, &ShapingFlow::intersect);
    connect(actions.fillHoles, &QAction::triggered, this, &ShapingFlow::fillHoles);
    connect(actions.makePolygon, &QAction::triggered, this, &ShapingFlow::makePolygons);
    connect(actions.offsetCopy, &QAction::triggered, this, &ShapingFlow::askForOffset);
    connect(actions.duplicate, &QAction::triggered, this, &ShapingFlow::duplicate);
}

void ShapingFlow::restate(const WindowActions& actions) const {
    const Selection selection = m_map.selection();
    const auto fences = selection.fences();
    for (QAction* action : {actions.unite, actions.takeOut, actions.intersect})
        action->setEnabled(fences.size() >= 2);
    for (QAction* action : {actions.fillHoles, actions.makePolygon})
        action->setEnabled(!fences.empty());
    actions.offsetCopy->setEnabled(fences.size() == 1);
    actions.duplicate->setEnabled(!selection.empty());
    const model::Fence* first = fences.empty() ? nullptr : m_document.set().fences.find(fences.front());
    actions.sayTakeOut(first ? QString::fromStdString(first->name) : QString{});
}

void ShapingFlow::take(const std::function<airspace::Reshaped()>& make) {
    try {
        airspace::Reshaped made = make();
        m_document.push(std::move(made.edit));
        m_map.select(Selection{std::vector<Thing>(made.fences.begin(), made.fences.end())});
        say(made.notes);
    } catch (const Fault& fault) {
        m_messages.showRefusal(session::translated(fault));
    }
}

void ShapingFlow::say(const std::vector<Wording>& notes) {
    QStringList words;
    for (const Wording& note : notes)
        words << session::translated(note);
    if (!words.isEmpty())
        m_messages.showNote(words.join(' '));
}

void ShapingFlow::unite() {
    take([this] { return airspace::united(m_document.set(), m_map.selection().fences()); });
}

void ShapingFlow::takeOut() {
    take([this] {
        const auto fences = m_map.selection().fences();
        const model::FenceId from = fences.empty() ? model::FenceId{} : fences.front();
        return airspace::subtracted(m_document.set(), from, fences);
    });
}

void ShapingFlow::intersect() {
    take([this] { return airspace::intersected(m_document.set(), m_map.selection().fences()); });
}

void ShapingFlow::fillHoles() {
    take([this] { return airspace::holesFilled(m_document.set(), m_map.selection().fences()); });
}

void ShapingFlow::makePolygons() {
    take([this] { return airspace::asPolygons(m_document.set(), m_map.selection().fences()); });
}

void ShapingFlow::askForOffset() {
    const auto* id = m_map.selection().only<model::FenceId>();
    const model::Fence* fence = id ? m_document.set().fences.find(*id) : nullptr;
    if (!fence)
        return;
    auto* dialog =
        new OffsetDialog{QString::fromStdString(fence->name), fence->kind, m_settings.unitSystem(), &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    const auto make = [this, dialog, id = *id] {
        return airspace::offsetCopy(m_document.set(), id, dialog->distance().value_or(StatedLength{}),
                                    dialog->direction(), dialog->kind());
    };
    connect(dialog, &OffsetDialog::changed, this, [this, dialog, make] {
        m_map.setPreview(std::nullopt);
        if (!dialog->distance())
            return;
        try {
            m_map.setPreview(make().edit);
        } catch (const Fault& fault) {
            dialog->say(session::translated(fault));
        }
    });
    connect(dialog, &QDialog::finished, this, [this, make](int result) {
        m_map.setPreview(std::nullopt);
        if (result == QDialog::Accepted)
            take(make);
        m_map.setFocus();
    });
    dialog->open();
}

void ShapingFlow::duplicate() {
    try {
        const Length step = Length::metres(kDuplicatePixels * m_map.metresPerPixel());
        auto made = airspace::duplicated(m_document.set(), m_map.selection().things(), {step, -step},
                                         session::inWindowLanguage());
        m_document.push(std::move(made.edit));
        m_map.select(Selection{std::move(made.things)});
        say(made.notes);
    } catch (const Fault& fault) {
        m_messages.showRefusal(session::translated(fault));
    }
}

} // namespace fencewright::desktop
