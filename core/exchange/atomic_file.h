#pragma once

#include "wording.h"

#include <string>
#include <string_view>

namespace fencewright::exchange {

/// A file that appears under its name whole or not at all. It is written beside its place, and takes it on commit();
/// without that it goes away, and what was there before stays.
class AtomicFile {
public:
    /// Makes an empty file beside `path`. Where `path` is a link, the file it leads to is the one replaced.
    /// @throws Fault  the folder is missing or cannot be written, the place is taken by something that is no file, or
    /// by one that is read-only.
    explicit AtomicFile(const std::string& path);
    ~AtomicFile();
    AtomicFile(const AtomicFile&) = delete;
    AtomicFile& operator=(const AtomicFile&) = delete;

    /// All bytes, and onto the disk. @throws Fault  the disk is full, a limit is reached, the device fails.
    void write(std::string_view bytes);
    /// What the file holds now. @throws Fault
    [[nodiscard]] std::string content() const;
    /// Takes the place. @throws Fault  what was there stays.
    void commit();

private:
    [[noreturn]] void fail(const Wording& problem, int error) const;

    std::string m_path;   ///< as given, for words
    std::string m_target; ///< links followed
    std::string m_folder;
    std::string m_temporary;
    int m_descriptor = -1;
};

} // namespace fencewright::exchange
