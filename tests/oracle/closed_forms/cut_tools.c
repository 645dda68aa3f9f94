/* SPDX-License-Identifier: GPL-3.0-or-later */
/* The tools of the closed forms, of a cut. */
#include "tests/oracle/closed_forms/cut_tools.h"
#include "core/cut/physics_inputs.h"

double bite_cut_least_chip(const bite_cut *cut)
{
    return cut->minimum_chip * bite_cut_edge_radius(cut);
}

bite_corner_tool bite_cut_corner_tool(const bite_cut *cut)
{
    bite_corner_tool tool = {
        .diameter = cut->diameter,
        .corner_radius = cut->corner_radius,
        .depth = cut->depth,
        .helix = cut->helix,
        .flutes = cut->flutes,
        .runout = cut->runout,
        .least_chip = bite_cut_least_chip(cut),
        .side = (bite_side)cut->side,
    };
    return tool;
}

bite_chamfer_tool bite_cut_chamfer_tool(const bite_cut *cut)
{
    bite_chamfer_tool tool = {
        .shape = bite_cut_chamfer_shape(cut),
        .diameter = cut->diameter,
        .helix = cut->helix,
        .least_chip = bite_cut_least_chip(cut),
        .side = (bite_side)cut->side,
    };
    return tool;
}
