/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Modified Bessel functions of order 1 and 2, free of the exponential, in lanes: I exp(-z), K
 * exp(z), z > 0.
 *
 * Below z = 6 (I) and z = 2 (K) by their power series (memory: Abramowitz and
 * Stegun 9.6.10, 9.6.11; the coefficients are 1/(k! (k + n)!) and, with them, H_k - gamma and H_k +
 * H_(k+1) - 2 gamma). Above, sqrt(z) times the function is a polynomial of y = 12/z - 1 or 4/z - 1:
 * Chebyshev interpolation of the values of GSL. Good to 2e-12, as
 * tests/cut/block/test_tool_block.c checks.
 */
#ifndef BITE_PHYSICS_ELASTIC_SCALED_BESSEL_H
#define BITE_PHYSICS_ELASTIC_SCALED_BESSEL_H

#include "core/base/lane_math.h"

typedef struct bite_scaled_bessel {
    double i1;
    double i2;
    double k1;
    double k2;
} bite_scaled_bessel;

#define BITE_BESSEL_I_POWERS 18
#define BITE_BESSEL_K_POWERS 10
#define BITE_BESSEL_I_TERMS 16
#define BITE_BESSEL_K_TERMS 14

/* The even and the odd powers each by themselves: two short chains, which the compiler unrolls. */
BITE_FORMULA double bite_polynomial(const double *coefficient, int count, double x)
{
    double square = x * x;
    double even = coefficient[count - 2];
    double odd = coefficient[count - 1];
    BITE_UNROLLED
    for (int i = count / 2 - 2; i >= 0; i--) {
        even = even * square + coefficient[2 * i];
        odd = odd * square + coefficient[2 * i + 1];
    }
    return even + odd * x;
}

/* I1 and I2 times exp(-z); z is in both ranges, each of which is computed. */
BITE_FORMULA void bite_scaled_bessel_i(double z, double fall, double *i1, double *i2)
{
    static const double low1[BITE_BESSEL_I_POWERS] = {1.0,
                                                      0.5,
                                                      0.08333333333333333,
                                                      0.006944444444444444,
                                                      0.00034722222222222224,
                                                      1.1574074074074073e-05,
                                                      2.755731922398589e-07,
                                                      4.920949861426052e-09,
                                                      6.834652585313961e-11,
                                                      7.594058428126623e-13,
                                                      6.903689480115112e-15,
                                                      5.230067787965994e-17,
                                                      3.352607556388458e-19,
                                                      1.842092063949702e-21,
                                                      8.771866971189057e-24,
                                                      3.654944571328774e-26,
                                                      1.3437296218120491e-28,
                                                      4.391273273895586e-31};
    static const double low2[BITE_BESSEL_I_POWERS] = {0.5,
                                                      0.16666666666666666,
                                                      0.020833333333333332,
                                                      0.001388888888888889,
                                                      5.787037037037037e-05,
                                                      1.6534391534391535e-06,
                                                      3.444664902998236e-08,
                                                      5.467722068251169e-10,
                                                      6.834652585313961e-12,
                                                      6.903689480115112e-14,
                                                      5.753074566762594e-16,
                                                      4.023129067666149e-18,
                                                      2.3947196831346127e-20,
                                                      1.228061375966468e-22,
                                                      5.482416856993161e-25,
                                                      2.1499673948992786e-27,
                                                      7.465164565622496e-30,
                                                      2.311196459945045e-32};
    static const double high1[BITE_BESSEL_I_TERMS] = {
        0.38612365920164755,     -0.01320139138646656,    -0.00041893304557834963,
        -4.2596571569217222e-05, -8.4014287674583402e-06, -2.9305372134651501e-06,
        -1.4467429275349421e-06, -4.0244403095058244e-07, 5.6241529907871332e-07,
        6.981296941876991e-07,   -2.7362067775774102e-08, -3.863836819598121e-07,
        -3.9131499473266107e-08, 1.3814934854916583e-07,  1.1270553561537611e-08,
        -2.4181281794710685e-08};
    static const double high2[BITE_BESSEL_I_TERMS] = {
        0.33895831774917735,     -0.057546620790840149,   0.002534017092239637,
        0.00010901555715473457,  1.5441500793111611e-05,  4.4519224038399837e-06,
        2.0264333040066577e-06,  6.4713315378923594e-07,  -5.8717297489692399e-07,
        -8.6115643554703775e-07, -4.3912534105419732e-08, 4.4032837865595753e-07,
        7.4237061226389844e-08,  -1.5174448275590002e-07, -1.8147071176866092e-08,
        2.6129865877688729e-08};
    double low = bite_smaller(z, 6.0);
    double high = bite_larger(z, 6.0);
    double square = 0.25 * low * low;
    double y = 12.0 / high - 1.0;
    double root = 1.0 / sqrt(high);
    *i1 = z < 6.0 ? 0.5 * low * fall * bite_polynomial(low1, BITE_BESSEL_I_POWERS, square)
                  : root * bite_polynomial(high1, BITE_BESSEL_I_TERMS, y);
    *i2 = z < 6.0 ? square * fall * bite_polynomial(low2, BITE_BESSEL_I_POWERS, square)
                  : root * bite_polynomial(high2, BITE_BESSEL_I_TERMS, y);
}

/* K1 and K2 times exp(z), from I1 and I2 times exp(-z) below z = 2. */
BITE_FORMULA void bite_scaled_bessel_k(double z, double fall, double i1, double i2, double *k1,
                                       double *k2)
{
    static const double low0[BITE_BESSEL_K_POWERS] = {
        -0.5772156649015329,   0.42278433509846713,    0.23069608377461678,   0.034892157456438894,
        0.0026147876188052097, 0.00011848039364109725, 3.612624103199204e-06, 7.93509652130421e-08,
        1.316748673038565e-09, 1.7099940727058082e-11};
    static const double low1[BITE_BESSEL_K_POWERS] = {
        -0.15443132980306573,  0.6727843350984671,     0.18157516696085563,   0.01918218983933056,
        0.001115359491966528,  4.1422476892711435e-05, 1.071545914091181e-06, 2.045286003593878e-08,
        3.002048746589188e-10, 3.495928729692882e-12};
    static const double high0[BITE_BESSEL_K_TERMS] = {
        1.2185953385144564,      -0.03107146182901291,    0.0030328917078739059,
        -0.00047976890617717325, 9.9562143813104421e-05,  -2.4736784811899577e-05,
        6.9930021906394225e-06,  -2.1839428564699934e-06, 7.6785274574553419e-07,
        -2.8560877693914466e-07, 6.9133199507021015e-08,  -2.1386411424018092e-08,
        3.8009844545161542e-08,  -1.8491779649743023e-08};
    static const double high1[BITE_BESSEL_K_TERMS] = {
        1.3631518903701361,      0.10334973775850174,     -0.0055667297641955457,
        0.00073572398553977152,  -0.00013959202657641079, 3.2845643376289623e-05,
        -8.9507404064675944e-06, 2.7218989384398401e-06,  -9.3511559985513804e-07,
        3.4178832096429246e-07,  -8.3680905469396549e-08, 2.5976872209398927e-08,
        -4.3621753383904505e-08, 2.1051900789270661e-08};
    double low = bite_smaller(z, 2.0);
    double high = bite_larger(z, 2.0);
    double square = 0.25 * low * low;
    double rise = 1.0 / fall;
    double logarithm = log(0.5 * low);
    double y = 4.0 / high - 1.0;
    double root = 1.0 / sqrt(high);
    double i0 = i2 + 2.0 * i1 / z;
    double k0_low =
        rise * (bite_polynomial(low0, BITE_BESSEL_K_POWERS, square) - logarithm * rise * i0);
    double k1_low = rise * (1.0 / low + logarithm * rise * i1 -
                            0.25 * low * bite_polynomial(low1, BITE_BESSEL_K_POWERS, square));
    double k0 = z < 2.0 ? k0_low : root * bite_polynomial(high0, BITE_BESSEL_K_TERMS, y);
    *k1 = z < 2.0 ? k1_low : root * bite_polynomial(high1, BITE_BESSEL_K_TERMS, y);
    *k2 = k0 + 2.0 * *k1 / z;
}

/** Of z > 0. */
BITE_FORMULA bite_scaled_bessel bite_scaled_bessel_at(double z)
{
    bite_scaled_bessel at;
    double fall = exp(-bite_smaller(z, 6.0));
    bite_scaled_bessel_i(z, fall, &at.i1, &at.i2);
    bite_scaled_bessel_k(z, fall, at.i1, at.i2, &at.k1, &at.k2);
    return at;
}

#endif
