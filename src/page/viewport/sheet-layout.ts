/** Sizes on a sheet of frames, CSS pixels. */
export interface SheetMeasures {
  readonly columns: number;
  readonly cellWidth: number;
  readonly cellHeight: number;
  /** Between two frames, across and down. */
  readonly gap: number;
  /** The name of the shot above its frames. */
  readonly headHeight: number;
  /** A line of what is said of a whole group, below its name. */
  readonly noteLineHeight: number;
  /** Between the paper's edge and the frames. */
  readonly edge: number;
  /** Between two sheets, where the surround is seen. */
  readonly between: number;
  /** A hero takes so many columns, and as many rows. */
  readonly heroSpan: number;
}

/** How many frames lie in each part of a group. */
export interface SheetCounts {
  readonly heroes: number;
  readonly selects: number;
  readonly frames: number;
  /** Letters of what is said of all of them, below the name; 0 for nothing. */
  readonly noteLetters: number;
}

/** Where a group lies, CSS pixels from the top of all. */
export interface GroupPlace {
  readonly top: number;
  readonly height: number;
  /** From the group's own top: the first row of its chosen frames, and of all its frames. */
  readonly chosenTop: number;
  readonly framesTop: number;
}

export interface SheetLayout {
  readonly places: readonly GroupPlace[];
  readonly height: number;
}

export type SheetPart = 'hero' | 'select' | 'frame';

/** One frame's spot, CSS pixels from its group's left top. */
export interface SheetSpot {
  readonly part: SheetPart;
  readonly index: number;
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/**
 * As many columns as fit into a width, at least two, each about as wide as asked for. A picture of 3 to 2 fits across a cell,
 * and the words stand below it.
 */
export function sheetMeasures(widthCssPx: number, wishCssPx: number, wordsCssPx: number): SheetMeasures {
  const narrow = widthCssPx < 700;
  const [edge, gap] = narrow ? [10, 8] : [18, 12];
  const room = Math.max(120, widthCssPx - 2 * edge);
  const columns = Math.max(2, Math.floor((room + gap) / (wishCssPx + gap)));
  const cellWidth = (room - gap * (columns - 1)) / columns;
  const cellHeight = Math.round(cellWidth * 0.72) + wordsCssPx;
  // On a phone a hero has the whole width: beside one of two columns a strip would stay empty.
  const heroSpan = columns >= 4 ? 2 : columns;
  return {
    columns,
    cellWidth,
    cellHeight,
    gap,
    headHeight: 46,
    noteLineHeight: 20,
    edge,
    between: 14,
    heroSpan,
  };
}

/** Where every group lies. Costs as much as there are groups, however many frames they hold. */
export function layoutSheet(groups: readonly SheetCounts[], measures: SheetMeasures): SheetLayout {
  const places: GroupPlace[] = [];
  let top = 0;
  for (const counts of groups) {
    const chosenRows = rowsOfChosen(counts, measures);
    const chosenTop = measures.headHeight + noteHeight(counts.noteLetters, measures);
    const framesTop = chosenTop + heightOf(chosenRows, measures) + (chosenRows > 0 ? measures.between : 0);
    const rows = Math.ceil(counts.frames / measures.columns);
    const height = framesTop + Math.max(heightOf(rows, measures), 0) + measures.edge;
    places.push({ top, height, chosenTop, framesTop });
    top += height + measures.between;
  }
  return { places, height: Math.max(0, top - measures.between) };
}

/** A letter of a note is about so wide at most, CSS pixels: a line too many is better than one that is cut. */
const noteLetterCssPx = 7;

/** Room for a note with as many lines as its letters may take. */
export function noteHeight(letters: number, measures: SheetMeasures): number {
  if (letters === 0) return 0;
  const { columns, cellWidth, gap, noteLineHeight, edge } = measures;
  const room = columns * cellWidth + (columns - 1) * gap;
  return Math.ceil((letters * noteLetterCssPx) / room) * noteLineHeight + edge / 2;
}

/** The spots of a group that touch a stretch of it, CSS pixels from the group's top. Costs as much as is seen. */
export function spotsSeen(
  counts: SheetCounts,
  place: GroupPlace,
  measures: SheetMeasures,
  from: number,
  to: number,
): SheetSpot[] {
  const spots: SheetSpot[] = [];
  const seen = ({ top, height }: SheetSpot): boolean => top + height > from && top < to;
  if (from < place.framesTop) {
    for (let index = 0; index < counts.heroes; index += 1) {
      const spot = heroSpot(index, place, measures);
      if (seen(spot)) spots.push(spot);
    }
    for (let index = 0; index < counts.selects; index += 1) {
      const spot = selectSpot(index, counts, place, measures);
      if (seen(spot)) spots.push(spot);
    }
  }
  const row = measures.cellHeight + measures.gap;
  const first = Math.max(0, Math.floor((from - place.framesTop) / row)) * measures.columns;
  const last = Math.min(counts.frames, Math.ceil((to - place.framesTop) / row) * measures.columns);
  for (let index = first; index < last; index += 1) spots.push(frameSpot(index, place, measures));
  return spots;
}

export function frameSpot(index: number, { framesTop }: GroupPlace, measures: SheetMeasures): SheetSpot {
  const { columns, cellWidth: width, cellHeight: height } = measures;
  return {
    part: 'frame',
    index,
    ...cornerOf(Math.floor(index / columns), index % columns, framesTop, measures),
    width,
    height,
  };
}

/** Heroes stand beside each other, as many as fit, then below. */
function heroSpot(index: number, { chosenTop }: GroupPlace, measures: SheetMeasures): SheetSpot {
  const { heroSpan, cellWidth, cellHeight, gap } = measures;
  const across = perBand(measures);
  const [band, at] = [Math.floor(index / across), index % across];
  return {
    part: 'hero',
    index,
    ...cornerOf(band * heroSpan, at * heroSpan, chosenTop, measures),
    width: heroSpan * cellWidth + (heroSpan - 1) * gap,
    height: heroSpan * cellHeight + (heroSpan - 1) * gap,
  };
}

/** Selects fill what the last heroes leave beside them, then whole rows. */
function selectSpot(
  index: number,
  counts: SheetCounts,
  { chosenTop }: GroupPlace,
  measures: SheetMeasures,
): SheetSpot {
  const { columns, heroSpan, cellWidth: width, cellHeight: height } = measures;
  const { bands, free } = besideHeroes(counts, measures);
  const beside = free * heroSpan;
  const above = (bands - 1) * heroSpan;
  const [row, column] =
    bands === 0
      ? [Math.floor(index / columns), index % columns]
      : index < beside
        ? [above + Math.floor(index / free), columns - free + (index % free)]
        : [bands * heroSpan + Math.floor((index - beside) / columns), (index - beside) % columns];
  return { part: 'select', index, ...cornerOf(row, column, chosenTop, measures), width, height };
}

function rowsOfChosen(counts: SheetCounts, measures: SheetMeasures): number {
  const { bands, free } = besideHeroes(counts, measures);
  const left = counts.selects - (bands === 0 ? 0 : free * measures.heroSpan);
  return bands * measures.heroSpan + Math.max(0, Math.ceil(left / measures.columns));
}

function besideHeroes({ heroes }: SheetCounts, measures: SheetMeasures): { bands: number; free: number } {
  const across = perBand(measures);
  const bands = Math.ceil(heroes / across);
  const last = heroes - Math.max(0, bands - 1) * across;
  return { bands, free: bands === 0 ? measures.columns : measures.columns - last * measures.heroSpan };
}

function perBand({ columns, heroSpan }: SheetMeasures): number {
  return Math.max(1, Math.floor(columns / heroSpan));
}

function cornerOf(
  row: number,
  column: number,
  top: number,
  { edge, cellWidth, cellHeight, gap }: SheetMeasures,
): { left: number; top: number } {
  return { left: edge + column * (cellWidth + gap), top: top + row * (cellHeight + gap) };
}

function heightOf(rows: number, { cellHeight, gap }: SheetMeasures): number {
  return rows === 0 ? 0 : rows * cellHeight + (rows - 1) * gap;
}
