/** A corner of a plane figure. */
export interface Corner {
  readonly y: number;
  readonly z: number;
}

/** Area of a figure and its first moments: the centroid is (momentY / area, momentZ / area). */
export interface FigureBelow {
  readonly area: number;
  readonly momentY: number;
  readonly momentZ: number;
}

/**
 * The part of a polygon below the line z = level + slope y, exactly. The corners in order around,
 * either way; the polygon must not cross itself (it may be hollowed).
 */
export function polygonBelow(
  corners: readonly Corner[],
  level: number,
  slope: number,
): FigureBelow {
  const over = corners.map(({ y, z }) => z - level - slope * y);
  let area = 0;
  let momentY = 0;
  let momentZ = 0;
  // Every edge makes a triangle with a fixed point on the line; parts above it count as nothing,
  // and the closing edge along the line lies in line with that point.
  const origin = { y: 0, z: level };
  const add = (from: Corner, to: Corner): void => {
    const twice = (from.y - origin.y) * (to.z - origin.z) - (to.y - origin.y) * (from.z - origin.z);
    area += twice / 2;
    momentY += (twice / 6) * (origin.y + from.y + to.y);
    momentZ += (twice / 6) * (origin.z + from.z + to.z);
  };
  corners.forEach((from, i) => {
    const next = (i + 1) % corners.length;
    const to = corners[next]!;
    const here = over[i]!;
    const there = over[next]!;
    if (here <= 0 && there <= 0) add(from, to);
    else if (here * there < 0) {
      const share = here / (here - there);
      const meets = { y: from.y + share * (to.y - from.y), z: from.z + share * (to.z - from.z) };
      if (here < 0) add(from, meets);
      else add(meets, to);
    }
  });
  const sign = area < 0 ? -1 : 1;
  return { area: sign * area, momentY: sign * momentY, momentZ: sign * momentZ };
}
