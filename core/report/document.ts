/**
 * A document as ordered data: what stands on paper and in which order, every figure already in
 * words. Nothing is computed from it; how it is set on pages is decided where it is made a PDF.
 */
export interface ReportDocument {
  readonly title: string;
  /** What it is about, in a line: vessel, place, date. */
  readonly subject: string;
  /** BCP 47. */
  readonly language: string;
  /** Moment the document stands for (ISO 8601): of the last line of its record, never of the printing. */
  readonly wall: string;
  /** On every page: draft, rehearsal, provisional, unsigned; empty: nothing is to be said. */
  readonly marks: readonly string[];
  /** At the left of every page's foot: what to check this document against. */
  readonly foot: string;
  readonly blocks: readonly Block[];
  readonly attachments: readonly Attachment[];
}

/** A file within the document. */
export interface Attachment {
  readonly name: string;
  /** Media type. */
  readonly type: string;
  readonly description: string;
  readonly bytes: Uint8Array;
}

/** `isChanged`: it does not stand so in the revision before; every page it touches says so. */
export type Block = Content & { readonly isChanged?: boolean };

type Content =
  | { readonly kind: 'title'; readonly text: string }
  | { readonly kind: 'heading'; readonly level: 1 | 2; readonly text: string }
  | { readonly kind: 'paragraph'; readonly text: string }
  /** To be seen before all else on its page. */
  | { readonly kind: 'notice'; readonly text: string }
  /** Small print: sources, how something is to be understood. */
  | { readonly kind: 'note'; readonly text: string }
  | { readonly kind: 'list'; readonly items: readonly string[] }
  /** Names and what stands for each. */
  | {
      readonly kind: 'facts';
      readonly rows: readonly (readonly [string, string])[];
      /** Rows that do not stand so in the revision before. */
      readonly changed?: readonly number[];
    }
  | TableBlock
  | FigureBlock
  /** Pictures taken aboard, JPEG in base64, each with what it shows. */
  | {
      readonly kind: 'photographs';
      readonly pictures: readonly { readonly jpeg: string; readonly caption: string }[];
    }
  /** Lines to be filled in or signed in ink. */
  | { readonly kind: 'ink'; readonly lines: readonly string[] }
  /** Digest words and the like, in figures that cannot be mistaken. */
  | { readonly kind: 'exact'; readonly text: string }
  | { readonly kind: 'page' };

export interface TableBlock {
  readonly kind: 'table';
  readonly columns: readonly {
    readonly head: string;
    readonly align: 'left' | 'right';
    /** Width against the other columns' of the table. */
    readonly share: number;
  }[];
  readonly rows: readonly {
    readonly cells: readonly string[];
    /** No longer in force: printed struck through. */
    readonly struck?: boolean;
    readonly isChanged?: boolean;
  }[];
}

export interface FigureBlock {
  readonly kind: 'figure';
  readonly svg: string;
  readonly widthMm: number;
  readonly heightMm: number;
  readonly caption: string;
  /** What it shows, for who cannot see it. */
  readonly words: string;
}
