#pragma once

#include "model/fence_set.h"

#include <chrono>
#include <optional>
#include <string>
#include <vector>

namespace fencewright::store {

/// Work that was not saved, kept apart from the document so that a crash loses at most the last few seconds.
struct RecoveryCopy {
    std::string file;         ///< the copy
    std::string documentPath; ///< what it was to be saved as; empty: never saved
    std::chrono::system_clock::time_point written;
};

/// Copies left in the folder by a program that did not end well, the newest first; those of running programs are not
/// among them, nor those of another machine that shares the folder.
[[nodiscard]] std::vector<RecoveryCopy> leftBehind(const std::string& folder);

/// Writes a copy of unsaved work (atomically), one file for each running document.
/// @param key  tells documents apart; letters, digits, '-'.
void keepRecoveryCopy(const std::string& folder, const std::string& key, const std::string& documentPath,
                      const model::FenceSet& set);
[[nodiscard]] model::FenceSet readRecoveryCopy(const RecoveryCopy& copy);
/// Gone without a word if there is none.
void discardRecoveryCopy(const std::string& folder, const std::string& key);
void discardRecoveryCopy(const RecoveryCopy& copy);

} // namespace fencewright::store
