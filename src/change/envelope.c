/* See envelope.h. */
#include "change/envelope.h"

#include <math.h>
#include <stdbool.h>

static double quantile_of_one(double z, double t) { return exp(z * sqrt(log1p(t * t))) / sqrt(1 + t * t); }

/* d/dt of it: ln g = z s - s^2 / 2, ds/dt = t / ((1 + t^2) s). */
static double slope_of_one(double z, double t) {
  static const double SMALL = 1e-6;
  if (t < SMALL) return z;
  double s = sqrt(log1p(t * t));
  return quantile_of_one(z, t) * (z - s) * t / ((1 + t * t) * s);
}

/* How far the tangent at t passes above the end. */
static double passes_above(double z, double t, double most) {
  return quantile_of_one(z, t) + slope_of_one(z, t) * (most - t) - quantile_of_one(z, most);
}

/* Where g turns from concave to convex, or 'most': its slope is least there. */
static double turning_point(double z, double most) {
  static const double GOLDEN = 0.6180339887498949;
  double a = 0, b = most;
  for (int i = 0; i < 60; i++) {
    double low = b - GOLDEN * (b - a), high = a + GOLDEN * (b - a);
    if (slope_of_one(z, low) < slope_of_one(z, high))
      b = high;
    else
      a = low;
  }
  return (a + b) / 2;
}

struct envelope envelope_above(double z, double most) {
  struct envelope e = {.z = z, .from = 0};
  double a = 0, b = turning_point(z, most);
  if (!(most > 0)) return (struct envelope){z, INFINITY, 1, z};
  if (passes_above(z, b, most) >= 0) { /* concave all the way */
    e.from = most;
  } else if (passes_above(z, 0, most) > 0) {
    for (int i = 0; i < 60; i++) {
      double middle = (a + b) / 2;
      if (passes_above(z, middle, most) > 0)
        a = middle;
      else
        b = middle;
    }
    e.from = a;
  }
  e.at_from = quantile_of_one(z, e.from);
  e.slope = e.from < most ? (quantile_of_one(z, most) - e.at_from) / (most - e.from) : slope_of_one(z, most);
  return e;
}

double envelope_at(const struct envelope *e, double t, double *slope) {
  bool straight = t > e->from;
  *slope = straight ? e->slope : slope_of_one(e->z, t);
  return straight ? e->at_from + e->slope * (t - e->from) : quantile_of_one(e->z, t);
}

double envelope_rise(double z, double most) {
  enum { STEPS = 200 };
  double least = z;
  for (int i = 1; i <= STEPS && most > 0; i++) {
    double t = most * i / STEPS;
    least = fmin(least, (quantile_of_one(z, t) - 1) / t);
  }
  return fmax(0, least);
}
