/* The climate models hour by hour, as one would write them down from the publications: the measure for
   climate_against_c.py. Temperatures are in degrees Celsius, one winter after another; an hour that was not read is NaN
   and fails every comparison. The constants come from the caller, who reads them from rules/climate.yaml. */

#include <math.h>

static double weight(double temp_c, const double *edges_c, const double *units, int edges)
{
    for (int i = 0; i < edges; i++)
        if (temp_c <= edges_c[i])
            return units[i];
    return units[edges];
}

void hours_between(const double *temp_c, long winters, long hours, const double *limits_c, double *out)
{
    for (long w = 0; w < winters; w++) {
        long count = 0;
        for (long h = 0; h < hours; h++) {
            double t = temp_c[w * hours + h];
            if (t >= limits_c[0] && t <= limits_c[1])
                count++;
        }
        out[w] = (double)count;
    }
}

/* classes: the number of edges, the edges, the units */
void units(const double *temp_c, long winters, long hours, const double *classes, double *out)
{
    int edges = (int)classes[0];
    for (long w = 0; w < winters; w++) {
        double total = 0;
        for (long h = 0; h < hours; h++) {
            double t = temp_c[w * hours + h];
            if (!isnan(t))
                total += weight(t, classes + 1, classes + 1 + edges, edges);
        }
        out[w] = total;
    }
}

/* model: e0, e1, a0, a1, slope, transition (K), offset to kelvin */
void portions(const double *temp_c, long winters, long hours, const double *model, double *out)
{
    double e0 = model[0], e1 = model[1], a0 = model[2], a1 = model[3], slope = model[4], tf = model[5];
    for (long w = 0; w < winters; w++) {
        double x = 0, total = 0;
        for (long h = 0; h < hours; h++) {
            double t = temp_c[w * hours + h] + model[6];
            if (isnan(t))
                continue;
            double xs = a0 / a1 * exp((e1 - e0) / t);
            double ak = a1 * exp(-e1 / t);
            x = xs - (xs - x) * exp(-ak);
            if (x >= 1) {
                double f = exp(slope * tf * (t - tf) / t);
                double xi = isinf(f) ? 1 : f / (1 + f);
                total += xi * x;
                x -= xi * x;
            }
        }
        out[w] = total;
    }
}

/* curve: base, optimum, critical temperature, stress */
void heat(const double *temp_c, long winters, long hours, const double *curve, double *out)
{
    double base = curve[0], optimum = curve[1], critical = curve[2], span = optimum - base;
    for (long w = 0; w < winters; w++) {
        double total = 0;
        for (long h = 0; h < hours; h++) {
            double t = temp_c[w * hours + h];
            if (t >= base && t <= optimum)
                total += span / 2 * (1 + cos(M_PI + M_PI * (t - base) / span));
            else if (t > optimum && t <= critical)
                total += span * (1 + cos(M_PI / 2 + M_PI / 2 * (t - optimum) / (critical - optimum)));
        }
        out[w] = total * curve[3];
    }
}

/* sun: 7 terms of the declination, altitude at sunrise (degrees), latitude (degrees) */
static double day_length_h(double day_of_year, const double *sun)
{
    double turn = 2 * M_PI * (day_of_year - 1) / 365, d = sun[0], latitude = sun[8] * M_PI / 180;
    for (int k = 1; k <= 3; k++)
        d += sun[2 * k - 1] * cos(k * turn) + sun[2 * k] * sin(k * turn);
    double c = (sin(sun[7] * M_PI / 180) - sin(latitude) * sin(d)) / (cos(latitude) * cos(d));
    return 2 * acos(fmin(1, fmax(-1, c))) * 180 / M_PI / 15;
}

/* the 24 hours of each day; the first hours of the first day and the last of the last have no neighbour: NaN */
void hourly(const double *min_c, const double *max_c, const double *day_of_year, long days, const double *sun,
            double beyond_h, double *out)
{
    for (long i = 0; i < days; i++) {
        double length = day_length_h(day_of_year[i], sun), rise = 12 - length / 2, set = 12 + length / 2;
        double span = max_c[i] - min_c[i];
        double at_set = min_c[i] + span * sin(M_PI * length / (length + beyond_h));
        double length_before = i ? day_length_h(day_of_year[i - 1], sun) : NAN;
        double length_after = i + 1 < days ? day_length_h(day_of_year[i + 1], sun) : NAN;
        double at_set_before = i ? min_c[i - 1] + (max_c[i - 1] - min_c[i - 1])
                                       * sin(M_PI * length_before / (length_before + beyond_h)) : NAN;
        double night_before = 24 - (12 + length_before / 2) + rise, night_after = 24 - set + 12 - length_after / 2;
        for (int h = 0; h < 24; h++) {
            double t;
            if (h > rise && h <= set)
                t = min_c[i] + span * sin(M_PI * (h - rise) / (length + beyond_h));
            else if (h <= rise)
                t = at_set_before - (at_set_before - min_c[i]) / log(1 + night_before)
                    * log(1 + h + 24 - (12 + length_before / 2));
            else
                t = i + 1 < days ? at_set - (at_set - min_c[i + 1]) / log(1 + night_after) * log(1 + h - set) : NAN;
            out[24 * i + h] = t;
        }
    }
}
