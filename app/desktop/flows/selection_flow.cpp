#include "desktop/flows/selection_flow.h"

#include "desktop/dialogs/select_where_dialog.h"
#include "desktop/flows/thing_filter.h"
#include "desktop/panels/entry_notation.h"
#include "session/given_names.h"
#include "session/translated.h"
#include "store/clipping.h"

#include <QtWidgets>

#include <algorithm>

namespace fencewright::desktop {
namespace {

const QString kGeoJson = QStringLiteral("application/geo+json"); // RFC 7946, 12

/// What stands for a thing in the set; null where it is gone.
struct FoundIn {
    const model::FenceSet& set;

    const model::Fence* operator()(const model::FenceId& id) const { return set.fences.find(id); }
    const model::Site* operator()(const model::SiteId& id) const { return set.sites.find(id); }
    const model::Home* operator()(const model::HomeId& id) const { return set.homes.find(id); }
};

model::Edit replacing(const model::FenceSet& set, model::Fence fence) {
    return model::replaceFence(set, std::move(fence), {});
}
model::Edit replacing(const model::FenceSet& set, model::Site site) {
    return model::replaceSite(set, std::move(site), {});
}
model::Edit replacing(const model::FenceSet& set, model::Home home) {
    return model::replaceHome(set, std::move(home), {});
}

} // namespace

SelectionFlow::SelectionFlow(QWidget& window, session::OpenDocument& document, session::LiveAudit& audit,
                             MapCanvas& map, MessageBar& messages)
    : m_window{window}, m_document{document}, m_audit{audit}, m_map{map}, m_messages{messages} {}

void SelectionFlow::selectAll() { m_map.select(Selection{allThings(m_document.set())}); }

void SelectionFlow::selectOthers() {
    std::vector<Thing> others = allThings(m_document.set());
    std::erase_if(others, [now = m_map.selection()](const Thing& thing) { return now.contains(thing); });
    m_map.select(Selection{std::move(others)});
}

void SelectionFlow::selectNone() { m_map.select({}); }

void SelectionFlow::selectWhere() {
    const model::Date day = m_audit.moment().date;
    const auto found = [this, day](const ThingFilter& filter) {
        return thingsWhere(m_document.set(), filter, day, m_audit.result().get());
    };
    auto* dialog = new SelectWhereDialog{
        dateWords(day), [found](const ThingFilter& filter) { return found(filter).size(); }, &m_window};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &QDialog::accepted, this, [this, dialog, found] {
        m_map.select(Selection{found(dialog->filter())});
        m_map.setFocus();
    });
    dialog->open();
}

bool SelectionFlow::copySelected(const QString& title) {
    try {
        const store::Clipping clipping = store::clipped(m_document.set(), m_map.selection().things());
        auto* content = new QMimeData;
        const QByteArray text = QByteArray::fromStdString(clipping.text);
        content->setText(QString::fromUtf8(text));
        content->setData(kGeoJson, text);
        QGuiApplication::clipboard()->setMimeData(content);
        const std::size_t count = clipping.fences + clipping.sites + clipping.homes;
        QString words = (count == 1 ? tr("%1: one thing, as GeoJSON text.").arg(title)
                                    : tr("%1: %2 things, as GeoJSON text.").arg(title).arg(count));
        if (clipping.confidential == 1)
            words += ' ' + tr("A confidential site is among them, with its name and place.");
        else if (clipping.confidential > 1)
            words +=
                ' ' +
                tr("%1 confidential sites are among them, with their names and places.").arg(clipping.confidential);
        m_messages.showNote(words);
        return true;
    } catch (const Fault& fault) {
        m_messages.showRefusal(session::translated(fault));
        return false;
    }
}

void SelectionFlow::copy() {
    if (const QString measured = m_map.copiedText(); !measured.isEmpty())
        QGuiApplication::clipboard()->setText(measured);
    else
        copySelected(tr("Copied"));
}

void SelectionFlow::cut() {
    const QString title = tr("Cut");
    if (!copySelected(title))
        return;
    const QString words = m_messages.words();
    const int step = m_document.undoStack().index();
    m_map.deleteSelection();
    if (m_document.undoStack().index() != step) // else what is locked stays, and the refusal is to be read
        m_messages.showNote(words);
}

bool SelectionFlow::hasSelected(bool locked) const {
    const FoundIn found{m_document.set()};
    const auto& things = m_map.selection().things();
    return std::any_of(things.begin(), things.end(), [&](const Thing& thing) {
        return std::visit(
            [&](const auto& id) {
                const auto* one = found(id);
                return one && one->locked == locked;
            },
            thing);
    });
}

void SelectionFlow::setLocked(bool locked) {
    model::Edit all;
    QString name;
    for (const Thing& thing : m_map.selection().things())
        std::visit(
            [&](const auto& id) {
                const auto* now = FoundIn{m_document.set()}(id);
                if (!now || now->locked == locked)
                    return;
                auto after = *now;
                after.locked = locked;
                name = QString::fromStdString(after.name);
                // Each is replaced where it stands: all are made against the set as it is.
                model::Edit one = replacing(m_document.set(), std::move(after));
                std::move(one.changes.begin(), one.changes.end(), std::back_inserter(all.changes));
            },
            thing);
    if (all.changes.empty())
        return;
    const int count = int(all.changes.size());
    const QString words = count == 1 ? name : tr("%n things", nullptr, count);
    all.title = (locked ? tr("Lock %1") : tr("Unlock %1")).arg(words).toStdString();
    m_document.push(std::move(all));
}

void SelectionFlow::paste() {
    const QMimeData* content = QGuiApplication::clipboard()->mimeData();
    // Text alone: a picture or a list of files is for others.
    const QByteArray text = content && content->hasFormat(kGeoJson) ? content->data(kGeoJson)
                            : content && content->hasText()         ? content->text().toUtf8()
                                                                    : QByteArray{};
    const NameGiver named = session::inWindowLanguage();
    try {
        const store::Pasting pasting = store::pasted({text.constData(), std::size_t(text.size())}, named);
        store::PastingEdit made = store::pastedInto(m_document.set(), pasting, named);
        const std::size_t count = made.things.size();
        m_document.push(std::move(made.edit));
        m_map.select(Selection{std::vector<Thing>(made.things.begin(), made.things.end())});
        m_map.zoomToSelection();
        QStringList words{count == 1 ? tr("Pasted one thing.") : tr("Pasted %1 things.").arg(count)};
        if (pasting.foreign > 0)
            words << tr("Of another program's text, areas became keep-outs, and places and lines sites.");
        if (pasting.leftOpen > 0)
            words << tr("%1 open rings were taken as closed.").arg(pasting.leftOpen);
        if (pasting.unwrapped > 0)
            words << tr("An edge over 180 degrees of longitude long was taken the short way, across the antimeridian.");
        if (pasting.heights > 0)
            words << tr("Heights were left out.");
        if (pasting.unreadable > 0)
            words << tr("%1 features had no geometry.").arg(pasting.unreadable);
        m_messages.showNote(words.join(' '));
    } catch (const Fault& fault) {
        m_messages.showRefusal(session::translated(fault));
    }
}

} // namespace fencewright::desktop
