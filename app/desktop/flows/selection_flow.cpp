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
constexpr std::size_t kCopiedAtOnce = 2'000;                     // corners: some ten milliseconds
constexpr qsizetype kReadAtOnce = 200'000;                       // bytes: the same

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

SelectionFlow::SelectionFlow(QWidget& window, session::OpenDocument& document, session::BackgroundJobs& jobs,
                             session::LiveAudit& audit, MapCanvas& map, MessageBar& messages, ClipboardText& clipboard)
    : m_window{window}, m_document{document}, m_jobs{jobs}, m_audit{audit}, m_map{map}, m_messages{messages},
      m_clipboard{clipboard} {}

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

/// Does `then` once it is on the clipboard.
void SelectionFlow::copySelected(const QString& title, std::function<void()> then) {
    const std::vector<Thing> things = m_map.selection().things();
    const auto entry = [title, things](const model::FenceSet& set, const Progress& progress) {
        const store::Clipping clipping = store::clipped(set, things, progress);
        const std::size_t count = clipping.fences + clipping.sites + clipping.homes;
        QString words = (count == 1 ? tr("%1: one thing, as GeoJSON text.").arg(title)
                                    : tr("%1: %2 things, as GeoJSON text.").arg(title).arg(count));
        if (clipping.confidential == 1)
            words += ' ' + tr("A confidential site is among them, with its name and place.");
        else if (clipping.confidential > 1)
            words +=
                ' ' +
                tr("%1 confidential sites are among them, with their names and places.").arg(clipping.confidential);
        return ClipboardEntry{QString::fromStdString(clipping.text), words, kGeoJson};
    };
    if (store::clippedCorners(m_document.set(), things) > kCopiedAtOnce)
        return m_clipboard.write(
            tr("Copying what is selected"),
            [set = m_document.set(), entry](const Progress& progress) { return entry(set, progress); },
            std::move(then));
    try {
        m_clipboard.put(entry(m_document.set(), {}));
    } catch (const Fault& fault) {
        return m_messages.showRefusal(session::translated(fault));
    }
    then();
}

void SelectionFlow::copy() {
    if (const QString measured = m_map.copiedText(); !measured.isEmpty())
        m_clipboard.put({measured, {}, {}});
    else
        copySelected(tr("Copied"), [] {});
}

void SelectionFlow::cut() {
    copySelected(tr("Cut"), [this, chosen = m_map.selection(), revision = m_document.revision()] {
        if (revision != m_document.revision())
            return m_messages.showNote(tr("Copied only: the set was changed meanwhile, so nothing was taken away."));
        const QString words = m_messages.words();
        m_map.select(chosen);
        m_map.deleteSelection();
        if (revision != m_document.revision()) // else what is locked stays, and the refusal is to be read
            m_messages.showNote(words);
    });
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
    m_clipboard.whenWritten([this, document = m_document.serial()] { pasteWhatIsThere(document); });
}

/// Into the document it was meant for, or nowhere.
void SelectionFlow::pasteWhatIsThere(int document) {
    if (document != m_document.serial())
        return;
    const QMimeData* content = QGuiApplication::clipboard()->mimeData();
    // Text alone: a picture or a list of files is for others.
    const QByteArray text = content && content->hasFormat(kGeoJson) ? content->data(kGeoJson)
                            : content && content->hasText()         ? content->text().toUtf8()
                                                                    : QByteArray{};
    const auto read = [text](const Progress& progress) {
        return store::pasted({text.constData(), std::size_t(text.size())}, session::inWindowLanguage(), progress);
    };
    if (text.size() <= kReadAtOnce) {
        try {
            take(read({}));
        } catch (const Fault& fault) {
            m_messages.showRefusal(session::translated(fault));
        }
        return;
    }
    m_jobs.start(
        tr("Reading what is pasted"), read,
        [this, document](store::Pasting pasting) {
            if (document == m_document.serial())
                take(std::move(pasting));
        },
        [this](const Fault& fault) { m_messages.showFault(fault); });
}

void SelectionFlow::take(store::Pasting pasting) {
    QStringList words;
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
    try {
        store::PastingEdit made = store::pastedInto(m_document.set(), std::move(pasting), session::inWindowLanguage());
        const std::size_t count = made.things.size();
        m_document.push(std::move(made.edit));
        m_map.select(Selection{std::vector<Thing>(made.things.begin(), made.things.end())});
        m_map.zoomToSelection();
        words.prepend(count == 1 ? tr("Pasted one thing.") : tr("Pasted %1 things.").arg(count));
        m_messages.showNote(words.join(' '));
    } catch (const Fault& fault) {
        m_messages.showRefusal(session::translated(fault));
    }
}

} // namespace fencewright::desktop
