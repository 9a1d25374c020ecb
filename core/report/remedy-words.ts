import type { Remedy } from '../limits/remedies.ts';
import { fixed } from './figure.ts';

/** One remedy as it is said to a crew: what to shut, fill, empty, lower or leave ashore, and by how much. */
export function remedyWords(remedy: Remedy): string {
  switch (remedy.kind) {
    case 'shut':
      return `keep ${remedy.what} shut`;
    case 'fill':
      return `press up ${remedy.what}, ${fixed(remedy.massT, 2)} t more`;
    case 'empty':
      return `pump out ${remedy.what}, ${fixed(remedy.massT, 2)} t`;
    case 'lower':
      return `lower ${remedy.what} (${fixed(remedy.massT, 2)} t) by ${fixed(remedy.byM, 2)} m`;
    case 'leave-ashore':
      return `leave ${fixed(remedy.massT, 2)} t of ${remedy.what} ashore`;
  }
}
