// SPDX-License-Identifier: GPL-3.0-or-later
// The table of wheel loads.
#include "solver/load_kinds.h"

namespace felloe {

// Columns of a parameter: key, summary, unit, smallest, largest, standard value, required.
const std::vector<LoadKind> &load_kinds() {
  static const std::vector<LoadKind> rows{
      {"bolt clamp",
       "preload of every wheel bolt, spread evenly on its seat, towards the hub",
       {{"preload_N", "preload of one bolt; takes the place of the torque", "N", 0, 2e5, 0, false},
        {"torque_Nm", "tightening torque of one bolt", "N m", 0, 1000, 0, false},
        {"thread_diameter_mm", "nominal thread diameter", "mm", 6, 30, 12, false},
        {"thread_pitch_mm", "thread pitch", "mm", 0.5, 4, 1.5, false},
        {"thread_friction", "friction coefficient in the thread", "-", 0.04, 0.4, 0.14, false},
        {"seat_friction", "friction coefficient on the seat", "-", 0.04, 0.4, 0.14, false}},
       "VDI 2230, torque of a bolted joint; cone seat derived",
       "from memory; agrees with a published table of fine threads within 0.3 %"},
      {"press fit",
       "interference between disc flange and rim, radial direction tied, sliding free",
       {{"interference_mm", "interference on diameter", "mm", 0, 2, 0, false}},
       "linear elasticity (Lame)",
       "derived; usual interference 0.2 to 0.6 mm on diameter is common practice, no source"},
      {"inflation",
       "pressure on the rim between the beads and the axial push of the beads on the flanges",
       {{"inflation_kPa", "tyre pressure over atmosphere", "kPa", 0, 1500, 0, true},
        {"outer_radius_mm", "outer radius of the tyre; 0: no push on the flanges", "mm", 0, 1000, 0,
         false}},
       "half of the pressure on the side wall's ring area goes to the bead: "
       "W = pi (a^2 - r_f^2) p / 2",
       "from memory, published for car wheels"},
      {"radial load",
       "wheel load on both bead seats in equal halves, cosine over an arc, radially inwards",
       {{"load_N", "load on the wheel", "N", 0, 1e6, 0, true},
        {"half_angle_deg", "half the loaded arc", "deg", 5, 90, 40, false},
        {"positions_per_turn", "load positions in one turn", "-", 8, 720, 72, false}},
       "p = p0 cos(pi phi / (2 phi0)), published for rolling wheels; rescaled to equilibrium",
       "half angle and equal halves are common practice, no source"},
      {"cornering moment",
       "moment of the rotating-bending rig on the hub; two unit moments give every angle",
       {{"moment_Nm", "bending moment", "N m", 0, 1e5, 0, true}},
       "statics",
       "exact"},
      {"adapter force",
       "force on the rigid hub, for the stiffness of the wheel",
       {{"force_N", "force", "N", -1e6, 1e6, 1, false}},
       "statics",
       "exact"},
  };
  return rows;
}

}  // namespace felloe
