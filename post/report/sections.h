// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of a report. Each gives markup without its heading; empty: nothing to say.
#pragma once
#include <string>

#include "post/report/report.h"

namespace felloe {

std::string verdict_section(const ReportInput &);      ///< every rig test with margin and life
std::string place_section(const ReportInput &);        ///< where it breaks, all pictures
std::string job_section(const ReportInput &);          ///< wheel and its drawing
std::string loads_section(const ReportInput &);        ///< loads and rig tests
std::string hot_spot_section(const ReportInput &);     ///< rated places and what is said of them
std::string life_section(const ReportInput &);         ///< S-N diagrams
std::string mean_stress_section(const ReportInput &);  ///< Haigh diagrams
std::string one_turn_section(const ReportInput &);     ///< stress by the load's angle
std::string figures_section(const ReportInput &);      ///< mass, stiffness, frequencies, contact
std::string gauges_section(const ReportInput &);       ///< virtual gauges, measured ones
std::string spectrum_section(const ReportInput &);     ///< service damage
std::string sensitivity_section(const ReportInput &);  ///< what moves the life
std::string accuracy_section(const ReportInput &);     ///< error bars and checks of the solution
std::string provenance_section(const ReportInput &);   ///< factors, sources, confidence
std::string cautions_section(const ReportInput &);
std::string reproduce_section(const ReportInput &);
std::string signatures_section(const ReportInput &);

}  // namespace felloe
