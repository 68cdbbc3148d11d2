#pragma once

#include <QCoreApplication>
#include <QString>

#include "desktop/panels/form_grid.h"
#include "fault.h"
#include "session/open_document.h"

#include <functional>
#include <iterator>
#include <optional>
#include <utility>
#include <vector>

namespace fencewright::desktop {

/// How the fields of a form reach a thing of the document, or several of one kind at once: each change is one edit, and
/// none where nothing changes.
template <class T> class RecordBinding {
public:
    using IdType = decltype(T::id);

    RecordBinding(session::OpenDocument& document, IdType id) : m_document{&document}, m_ids{std::move(id)} {}
    RecordBinding(session::OpenDocument& document, std::vector<IdType> ids)
        : m_document{&document}, m_ids{std::move(ids)} {}

    /// The first of them.
    const T* find() const { return m_ids.empty() ? nullptr : roster(m_document->set()).find(m_ids.front()); }

    template <class Reader> std::function<QString()> read(Reader reader) const {
        return [*this, reader]() -> QString { return common<QString>(reader, {}, differing()); };
    }
    template <class Reader> std::function<int()> readChoice(Reader reader) const {
        return [*this, reader]() -> int { return common<int>(reader, -1, -1); };
    }
    /// @param title  of the undo step; %1 is the name, or how many they are.
    template <class Writer> std::function<void(const QString&)> write(const QString& title, Writer writer) const {
        return [*this, title, writer](const QString& text) { change(title, [&](T& thing) { writer(thing, text); }); };
    }
    template <class Writer> std::function<void(int)> writeChoice(const QString& title, Writer writer) const {
        return [*this, title, writer](int choice) { change(title, [&](T& thing) { writer(thing, choice); }); };
    }

    void change(const QString& title, const std::function<void(T&)>& writer, std::uint64_t gesture = 0) const {
        const auto& all = roster(m_document->set());
        std::optional<model::Edit> edit;
        for (const IdType& id : m_ids) {
            const T* before = all.find(id);
            if (!before)
                continue;
            T after = *before;
            writer(after);
            if (after == *before)
                continue;
            const QString name = m_ids.size() == 1 ? QString::fromStdString(before->name) : severalWords(m_ids.size());
            // Each replaces a thing by itself where it stands: all are made against the set as it is.
            model::Edit one = replace(m_document->set(), std::move(after), title.arg(name).toStdString());
            if (!edit)
                edit = std::move(one);
            else
                std::move(one.changes.begin(), one.changes.end(), std::back_inserter(edit->changes));
        }
        if (!edit)
            return;
        edit->gesture = gesture;
        m_document->push(std::move(*edit));
    }

private:
    template <class Value, class Reader> Value common(const Reader& reader, Value none, Value different) const {
        const auto& all = roster(m_document->set());
        std::optional<Value> found;
        for (const IdType& id : m_ids)
            if (const T* thing = all.find(id)) {
                Value value = Value(reader(*thing));
                if (found && *found != value)
                    return different;
                found = std::move(value);
            }
        return found.value_or(std::move(none));
    }
    static QString severalWords(std::size_t count) {
        if constexpr (std::is_same_v<T, model::Fence>)
            return QCoreApplication::translate("Selection", "%n fences", nullptr, int(count));
        else if constexpr (std::is_same_v<T, model::Site>)
            return QCoreApplication::translate("Selection", "%n sites", nullptr, int(count));
        else
            return QCoreApplication::translate("Selection", "%n homes", nullptr, int(count));
    }
    static const model::Roster<T>& roster(const model::FenceSet& set) {
        if constexpr (std::is_same_v<T, model::Fence>)
            return set.fences;
        else if constexpr (std::is_same_v<T, model::Site>)
            return set.sites;
        else if constexpr (std::is_same_v<T, model::Home>)
            return set.homes;
        else
            return set.sources;
    }
    static model::Edit replace(const model::FenceSet& set, T thing, const std::string& title) {
        if constexpr (std::is_same_v<T, model::Fence>)
            return model::replaceFence(set, std::move(thing), title);
        else if constexpr (std::is_same_v<T, model::Site>)
            return model::replaceSite(set, std::move(thing), title);
        else if constexpr (std::is_same_v<T, model::Home>)
            return model::replaceHome(set, std::move(thing), title);
        else
            return model::replaceSource(set, std::move(thing), title);
    }

    session::OpenDocument* m_document;
    std::vector<IdType> m_ids;
};

/// The check box that locks a thing, or several.
template <class T> FormField lockField(const RecordBinding<T>& thing, const char* name) {
    FormField field;
    field.kind = FormField::Kind::Check;
    field.name = name;
    field.label = QCoreApplication::translate("Selection", "Locked: nothing changes it");
    field.read = thing.read([](const T& one) { return one.locked ? "1" : ""; });
    // What it does is told by the change itself: of several, some may be locked already.
    field.write = [thing](const QString& typed) {
        const bool locked = !typed.isEmpty();
        thing.change(locked ? QCoreApplication::translate("Selection", "Lock %1")
                            : QCoreApplication::translate("Selection", "Unlock %1"),
                     [locked](T& one) { one.locked = locked; });
    };
    return field;
}

} // namespace fencewright::desktop
