/* envelope.h: bounds on the quantile of a lognormal total that hold for every bowl, not only near one. Private to this
 * folder.
 *
 * With m the mean, v the standard deviation and t = v / m the quantile is Q = m g(t), g(t) = exp(z s) / sqrt(1 + t^2),
 * s^2 = ln(1 + t^2). v is a norm of the amounts, so convex. Where g is concave and falls, Q is concave and its tangent plane
 * lies above it everywhere; elsewhere a tangent cuts off bowls that are right. For t up to a most T
 *   - the least concave function above g is g up to a point 'from' and then a straight line to (T, g(T)): m times it lies
 *     above Q and is concave;
 *   - 1 + rise t with the least slope of a chord from (0, 1) lies below g: m + rise v lies below Q and is convex.
 * So tangents of these are rows that no bowl breaks that keeps the limit. docs/method/mend.md.
 *
 * Layer: change. Pure. */
#ifndef BW_ENVELOPE_H
#define BW_ENVELOPE_H

/* For z <= 0: g up to 'from', from there on at_from + slope (t - from). */
struct envelope {
  double z, from, at_from, slope;
};
struct envelope envelope_above(double z, double most);
/* Its value at t, and its slope. */
double envelope_at(const struct envelope *e, double t, double *slope);

/* For z >= 0: the rise of the line below g on 0 .. most; 0 at least. */
double envelope_rise(double z, double most);

#endif
