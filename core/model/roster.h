#pragma once

#include <algorithm>
#include <cstddef>
#include <functional>
#include <memory>
#include <string>
#include <utility>
#include <vector>

namespace fencewright::model {

/// Things with an `id`, in the order in which a person put them. Each is shared and never changed in place, so that a
/// copy of a roster costs pointers, and a thousand steps of undo cost a thousand changed things.
template <class T> class Roster {
public:
    using Pointer = std::shared_ptr<const T>;
    using IdType = decltype(T::id);

    Roster() = default;

    [[nodiscard]] std::size_t size() const { return m_items.size(); }
    [[nodiscard]] bool empty() const { return m_items.empty(); }
    [[nodiscard]] const T& operator[](std::size_t index) const { return *m_items[index]; }
    [[nodiscard]] const Pointer& pointer(std::size_t index) const { return m_items[index]; }

    /// Null where there is none. The pointer holds as long as this roster.
    [[nodiscard]] const T* find(const IdType& id) const {
        const std::size_t index = indexOf(id);
        return index == size() ? nullptr : m_items[index].get();
    }
    [[nodiscard]] Pointer findPointer(const IdType& id) const {
        const std::size_t index = indexOf(id);
        return index == size() ? nullptr : m_items[index];
    }
    /// size() where there is none.
    [[nodiscard]] std::size_t indexOf(const IdType& id) const {
        const std::size_t mark = markOf(id);
        auto at = std::find(m_marks.begin(), m_marks.end(), mark);
        while (at != m_marks.end() && m_items[static_cast<std::size_t>(at - m_marks.begin())]->id != id)
            at = std::find(at + 1, m_marks.end(), mark);
        return static_cast<std::size_t>(at - m_marks.begin());
    }

    void append(T item) { insert(size(), std::make_shared<const T>(std::move(item))); }
    void insert(std::size_t index, Pointer item) {
        const auto at = static_cast<std::ptrdiff_t>(index);
        m_marks.insert(m_marks.begin() + at, markOf(item->id));
        m_items.insert(m_items.begin() + at, std::move(item));
    }
    void replace(std::size_t index, Pointer item) {
        m_marks[index] = markOf(item->id);
        m_items[index] = std::move(item);
    }
    void erase(std::size_t index) {
        m_marks.erase(m_marks.begin() + static_cast<std::ptrdiff_t>(index));
        m_items.erase(m_items.begin() + static_cast<std::ptrdiff_t>(index));
    }

    class Iterator {
    public:
        using value_type = T;
        using difference_type = std::ptrdiff_t;
        explicit Iterator(const Pointer* at) : m_at{at} {}
        const T& operator*() const { return **m_at; }
        const T* operator->() const { return m_at->get(); }
        Iterator& operator++() {
            ++m_at;
            return *this;
        }
        bool operator==(const Iterator&) const = default;

    private:
        const Pointer* m_at;
    };
    [[nodiscard]] Iterator begin() const { return Iterator{m_items.data()}; }
    [[nodiscard]] Iterator end() const { return Iterator{m_items.data() + m_items.size()}; }

    /// By value: the same things in the same order.
    bool operator==(const Roster& other) const {
        return std::equal(m_items.begin(), m_items.end(), other.m_items.begin(), other.m_items.end(),
                          [](const Pointer& a, const Pointer& b) { return a == b || *a == *b; });
    }

private:
    static std::size_t markOf(const IdType& id) { return std::hash<std::string>{}(id.value); }

    std::vector<Pointer> m_items;
    /// Of the identities, side by side: to look for one of ten thousand things is to run along one stretch of memory,
    /// and not to visit every thing.
    std::vector<std::size_t> m_marks;
};

} // namespace fencewright::model
