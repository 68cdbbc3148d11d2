#include "command/subcommand_table.h"
#include "exchange/vector_reader.h"
#include "reference/layer_builder.h"

#include <exception>
#include <iostream>
#include <string>
#include <vector>

int main(int argc, char** argv) {
    const std::vector<std::string> words{argv + 1, argv + argc};
    try {
        // Not for people: the side of readVectorApart() and openLayer() that opens the foreign file.
        if (words.size() == 1 && words[0] == "foreign")
            return fencewright::exchange::answerForeignRequest(fencewright::reference::answerWithLayer);
        return fencewright::command::run(words, {std::cout, std::cerr});
    } catch (const std::exception& error) {
        std::cerr << "fencewright-cli: " << error.what() << "\n";
        return fencewright::command::kFault;
    }
}
