/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Peaks of an edge in many thin slices. */
#include "tests/cut/block/fine_edge.h"
#include "tests/oracle/closed_forms/chip_pieces.h"
#include "tests/support/test_formulas.h"
#include <math.h>
#include <string.h>

typedef struct fine_turn {
    bite_load load[FINE_TURN];
    double torque[FINE_TURN];
} fine_turn;

static double chip_at(const bite_chip *chip, const bite_tooth *tooth, double phi)
{
    const bite_piece *pieces = bite_chip_pieces(chip, tooth);
    for (int i = 0; i < tooth->count; i++) {
        if (phi >= pieces[i].enter && phi <= pieces[i].leave) {
            return pieces[i].slope * sin(phi) + pieces[i].offset;
        }
    }
    return -1.0;
}

static void add_load(const bite_pressure *pressure, const fine_slice *slice, double phi,
                     double chip, fine_turn *turn, int k)
{
    double tangential =
        pressure->tangential * chip * slice->rise + pressure->edge_tangential * slice->length;
    double normal = pressure->radial * chip * slice->rise + pressure->edge_radial * slice->length;
    double axial = pressure->axial * chip * slice->rise + pressure->edge_axial * slice->length;
    turn->load[k].tangential += tangential;
    turn->load[k].x -= tangential * cos(phi) + normal * slice->sine * sin(phi);
    turn->load[k].y += tangential * sin(phi) - normal * slice->sine * cos(phi);
    turn->load[k].lift += axial - normal * slice->cosine;
    turn->torque[k] += tangential * slice->radius;
}

static void add_tooth(const fine_tool *tool, const bite_pressure *peak, const fine_slice *slice,
                      const bite_chip *chip, int j, fine_turn *turn)
{
    const bite_tooth *tooth = bite_chip_tooth(chip, j);
    for (int k = 0; k < FINE_TURN; k++) {
        double phi = tool->first + 2.0 * M_PI * k / FINE_TURN - 2.0 * M_PI * j / tool->flutes -
                     tool->lag * slice->height;
        phi -= 2.0 * M_PI * floor(phi / (2.0 * M_PI));
        double thick = phi <= M_PI ? chip_at(chip, tooth, phi) : -1.0;
        if (thick >= 0.0) {
            add_load(peak, slice, phi, thick, turn, k);
        }
    }
}

fine_peaks fine_edge_peaks(const fine_tool *tool, const bite_pressure *pressure,
                           const fine_slice *slices, int count)
{
    static fine_turn turn;
    static bite_chip chip;
    memset(&turn, 0, sizeof turn);
    for (int i = 0; i < count; i++) {
        bite_chip_init(&chip, slices[i].arc, tool->feed, tool->flutes, tool->runout);
        double h = chip.most * slices[i].sine;
        double own = h > 0.0 ? bite_chip_peak(h, tool->least_chip) / h : 1.0;
        bite_pressure peak =
            bite_pressure_thicker(pressure, slices[i].thicker > 0.0 ? slices[i].thicker : own);
        for (int j = 0; j < tool->flutes; j++) {
            add_tooth(tool, &peak, &slices[i], &chip, j, &turn);
        }
    }
    fine_peaks most = {{0.0, 0.0, 0.0}, 0.0, {0.0, 0.0, 0.0, 0.0}};
    for (int k = 0; k < FINE_TURN; k++) {
        const bite_load *load = &turn.load[k];
        most.peaks.tangential = fmax(most.peaks.tangential, load->tangential);
        most.peaks.side = fmax(most.peaks.side, hypot(load->x, load->y));
        most.peaks.lift = fabs(load->lift) > fabs(most.peaks.lift) ? load->lift : most.peaks.lift;
        most.torque = fmax(most.torque, turn.torque[k]);
        most.mean.x += load->x / FINE_TURN;
        most.mean.y += load->y / FINE_TURN;
        most.mean.lift += load->lift / FINE_TURN;
    }
    return most;
}
