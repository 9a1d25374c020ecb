/**
 * Hansen, Naval Engineers Journal 97(4), 1985, pp. 97-115, as example 7.1 of Biran, Ship
 * Hydrostatics and Stability, 2003: moment in ft ton, tangent at three pendulums, in the order taken.
 */
export const HANSEN = {
  moments: [3853.7, 2570.1, 1286.8, 3.8, -3785.8, -2523.3, -1263.7, -0.6],
  tangents: [
    [0.01869, 0.01854, 0.01788],
    [0.01259, 0.01255, 0.01214],
    [0.00648, 0.00641, 0.00615],
    [0.00042, 0.00047, 0],
    [-0.01791, -0.01802, -0.0185],
    [-0.01194, -0.01203, -0.01235],
    [-0.00574, -0.00599, -0.00646],
    [0, 0, -0.00063],
  ] as (number | null)[][],
};
