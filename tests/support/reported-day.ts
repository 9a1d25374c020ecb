import type { Block } from '#core/report/document.ts';
import { type ReportedDay, reportedDay } from '#core/report/reported-day.ts';
import type { SessionState } from '#core/session/session.ts';

/** What a report is written from, of a session as a fold would leave it. */
export function reportedDayOf(session: SessionState): ReportedDay {
  return reportedDay(session, {
    head: { lines: session.lines, head: 'ab'.repeat(32) },
    lastWall: '2026-05-04T16:00:00.000Z',
    recordSha256: 'cd'.repeat(32),
    program: 'heelwright 0.1.0',
    photographs: [],
    traces: session.states.flatMap(({ state, reading }) =>
      (reading?.instruments ?? []).map(({ instrument, heelDeg }) => ({
        ...{ state, instrument },
        atS: Array.from({ length: 600 }, (_, k) => 100 * state + k / 10),
        heelDeg: Array.from({ length: 600 }, (_, k) => heelDeg + 0.1 * Math.sin(k / 8)),
      })),
    ),
  });
}

/** The texts of blocks, cells apart. */
export function textsOf(blocks: readonly Block[]): string[] {
  return blocks.flatMap((block): readonly string[] => {
    switch (block.kind) {
      case 'page':
        return [];
      case 'list':
        return block.items;
      case 'facts':
        return block.rows.flat();
      case 'photographs':
        return block.pictures.map(({ caption }) => caption);
      case 'ink':
        return block.lines;
      case 'table':
        return [
          ...block.columns.map(({ head }) => head),
          ...block.rows.flatMap(({ cells }) => cells),
        ];
      case 'figure':
        return [block.caption, block.words];
      default:
        return [block.text];
    }
  });
}
