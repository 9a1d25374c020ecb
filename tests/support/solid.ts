import manifold from 'manifold-3d';
import { type ShipPoint, upwardNormal, type Waterline } from '#core/hull/waterline.ts';
import type { Facets } from './facets.ts';

/** A general library's own cut of the same facets by the same plane. */
export interface Solid {
  cut(waterline: Waterline): { volumeM3: number; centre: ShipPoint };
  delete(): void;
}

/** The facets as a solid of manifold-3d (dev dependency; single precision vertices). */
export async function solidOf({ vertices, triangles }: Facets): Promise<Solid> {
  const library = await manifold();
  library.setup();
  const solid = new library.Manifold(
    new library.Mesh({
      numProp: 3,
      vertProperties: Float32Array.from(vertices),
      triVerts: triangles,
    }),
  );
  return {
    cut(waterline) {
      const up = upwardNormal(waterline);
      const wet = solid.trimByPlane([-up.xM, up.yM, -up.zM], -waterline.levelM);
      const mesh = wet.getMesh();
      const found = {
        volumeM3: wet.volume(),
        centre: centreOf(mesh.vertProperties, mesh.triVerts, mesh.numProp),
      };
      wet.delete();
      return found;
    },
    delete: () => solid.delete(),
  };
}

function centreOf(vertices: Float32Array, triangles: Uint32Array, width: number): ShipPoint {
  let [volume, x, y, z] = [0, 0, 0, 0];
  for (let t = 0; t < triangles.length; t += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => width * triangles[t + k]!) as [number, number, number];
    const at = (v: number): [number, number, number] => [
      vertices[v]!,
      vertices[v + 1]!,
      vertices[v + 2]!,
    ];
    const [p, q, r] = [at(a), at(b), at(c)];
    const cone =
      (p[0] * (q[1] * r[2] - q[2] * r[1]) +
        p[1] * (q[2] * r[0] - q[0] * r[2]) +
        p[2] * (q[0] * r[1] - q[1] * r[0])) /
      6;
    volume += cone;
    x += (cone * (p[0] + q[0] + r[0])) / 4;
    y += (cone * (p[1] + q[1] + r[1])) / 4;
    z += (cone * (p[2] + q[2] + r[2])) / 4;
  }
  return { xM: x / volume, yM: -y / volume, zM: z / volume };
}
