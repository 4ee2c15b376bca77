/** Columns of a shot list in the order they are written, each with the spellings it is known by, the first ours. */
export const columnSpellings = {
  id: ['id', 'shot id', 'key'],
  name: ['name', 'shot', 'shot name', 'title', 'motif', 'motiv', 'titel', 'bezeichnung', 'titre', 'nombre'],
  description: ['description', 'details', 'what', 'beschreibung', 'descripción'],
  camera: ['camera', 'kamera', 'caméra', 'cámara'],
  look: ['look'],
  layout: ['layout', 'layout frame'],
  reference: ['reference', 'reference frame', 'referenz', 'référence', 'referencia'],
  heroes: ['heroes', 'hero'],
  selects: ['selects', 'select'],
  agreement: ['agreement', 'client agrees', 'approval', 'freigabe'],
  requires: ['requires', 'required', 'required verdicts'],
  mutes: ['mutes', 'muted', 'muted verdicts'],
  tolerances: ['tolerances', 'tolerance', 'limits', 'toleranzen'],
} as const;

export type Column = keyof typeof columnSpellings;
// The keys of the object above and no others: it is a constant.
export const columns: readonly Column[] = Object.keys(columnSpellings) as Column[];

export interface FoundColumns {
  /** Where each column stands, counted from 0. Of a column that is there twice, the first. */
  readonly places: ReadonlyMap<Column, number>;
  /** Names in the header that say nothing to us. */
  readonly unknown: readonly string[];
}

/** Columns by their names, in any order and spelling: case, blanks at the ends, and `_` or `-` for a blank do not matter. */
export function findColumns(header: readonly string[]): FoundColumns {
  const places = new Map<Column, number>();
  const unknown: string[] = [];
  header.forEach((cell, place) => {
    const column = columnOf(cell);
    if (column !== null && !places.has(column)) places.set(column, place);
    else if (cell.trim() !== '') unknown.push(cell.trim());
  });
  return { places, unknown };
}

function columnOf(cell: string): Column | null {
  const spelling = cell
    .normalize('NFC')
    .trim()
    .toLowerCase()
    .replace(/[_\s-]+/g, ' ');
  return columns.find((column) => columnSpellings[column].some((known) => known === spelling)) ?? null;
}
