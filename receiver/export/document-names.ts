/** The documents a record gives, by the name they are asked for. */
export const DOCUMENTS = ['report', 'witness-sheet', 'certificates'] as const;
export type DocumentName = (typeof DOCUMENTS)[number];
