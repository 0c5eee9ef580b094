// SPDX-License-Identifier: GPL-3.0-or-later
// The cautions that every report carries.
#include "post/results.h"

namespace felloe {

std::vector<std::string> standing_cautions() {
  return {
      "A wheel is a safety-critical part. This calculation prepares physical tests and never "
      "replaces them: tests of production parts by an accredited laboratory decide on release.",
      "Local codes and the judgement of licensed engineers take precedence. Approval and marking "
      "duties differ from country to country: check the law and the current edition of each "
      "standard where the wheel will run.",
      "The loads are accelerated rig loads, not service. Potholes and kerbs, corrosion, neglected "
      "wheel nuts and an uneven hub face are not covered.",
      "Residual stress, weld quality, local thinning and coating are in the model only where the "
      "case states them. A factor of 3 to 10 between calculated and measured life is ordinary.",
      "Do not release a wheel on a number that rests on a second-hand factor or one from memory: "
      "replace it by the current standard or by your own tests.",
      "Bolt preload scatters widely: rate the wheel with the lowest and the highest preload.",
      "Parts from destructive tests must never return to a vehicle.",
  };
}

}  // namespace felloe
