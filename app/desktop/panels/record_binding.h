#pragma once

#include <QString>

#include "fault.h"
#include "session/open_document.h"

#include <functional>

namespace fencewright::desktop {

/// How the fields of a form reach one thing of the document: each change is one edit, and none where nothing changes.
template <class T> class RecordBinding {
public:
    using IdType = decltype(T::id);

    RecordBinding(session::OpenDocument& document, IdType id) : m_document{&document}, m_id{std::move(id)} {}

    const T* find() const { return roster(m_document->set()).find(m_id); }

    template <class Reader> std::function<QString()> read(Reader reader) const {
        return [*this, reader]() -> QString {
            const T* thing = find();
            return thing ? QString(reader(*thing)) : QString{};
        };
    }
    template <class Reader> std::function<int()> readChoice(Reader reader) const {
        return [*this, reader]() -> int {
            const T* thing = find();
            return thing ? int(reader(*thing)) : -1;
        };
    }
    /// @param title  of the undo step; %1 is the name.
    template <class Writer> std::function<void(const QString&)> write(const QString& title, Writer writer) const {
        return [*this, title, writer](const QString& text) { change(title, [&](T& thing) { writer(thing, text); }); };
    }
    template <class Writer> std::function<void(int)> writeChoice(const QString& title, Writer writer) const {
        return [*this, title, writer](int choice) { change(title, [&](T& thing) { writer(thing, choice); }); };
    }

    void change(const QString& title, const std::function<void(T&)>& writer, std::uint64_t gesture = 0) const {
        const T* before = find();
        if (!before)
            return;
        T after = *before;
        writer(after);
        if (after == *before)
            return;
        const std::string words = title.arg(QString::fromStdString(before->name)).toStdString();
        model::Edit edit = replace(m_document->set(), std::move(after), words);
        edit.gesture = gesture;
        m_document->push(std::move(edit));
    }

private:
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
    IdType m_id;
};

} // namespace fencewright::desktop
