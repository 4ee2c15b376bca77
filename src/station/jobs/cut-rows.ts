import { CsvError, parse } from 'csv-parse/sync';
import { type Delimiter, jobLimits, type Row, type RowFault } from '../../job/index.ts';

/** The header, what is read, and one more that shows that there is more. */
const rowsMax = jobLimits.shotListLinesMax + 2;

/** A line of 20 of the longest fields there may be: a longer one is named, and fills no memory. */
export const rowBytesMax: number = jobLimits.fieldCharactersMax * 20;

/**
 * Reading begins anew behind a line that breaks the rules, at most so often: each time may look ahead as far as the longest
 * line, and a file of nothing else is no list.
 */
export const faultsMax = 100;

/**
 * A text cut into rows after RFC 4180 by a library that knows what spreadsheets make of it; line ends are LF. Each row has
 * the number of its first line. A line that breaks the rules of quoting is a fault, and what follows is read all the same,
 * where the library alone would take the rest of the file for one quoted field.
 */
export function cutRows(text: string, delimiter: Delimiter): Row[] {
  const lines = text.split('\n');
  const rows: Row[] = [];
  let taken = 0;
  const takeLine = (): number => {
    while (lines[taken] === '') taken += 1;
    return taken + 1;
  };
  for (let faults = 0; taken < lines.length && rows.length < rowsMax; faults += 1) {
    const from = taken;
    const fault = cutUntilFault(
      lines.slice(from).join('\n'),
      delimiter,
      rowsMax - rows.length,
      (cells, end) => {
        rows.push({ line: takeLine(), cells });
        taken = from + end;
      },
    );
    if (fault === null) break;
    const givenUp = faults + 1 === faultsMax;
    rows.push({ line: takeLine(), fault: givenUp ? 'given-up' : fault });
    if (givenUp) break;
    taken += 1;
  }
  return rows;
}

/** Gives each record with the number of its last line. Returns what ended the reading, null for the end or the most rows. */
function cutUntilFault(
  text: string,
  delimiter: Delimiter,
  most: number,
  onRecord: (cells: readonly string[], endLine: number) => void,
): RowFault | null {
  try {
    parse(text, {
      delimiter,
      relax_column_count: true,
      skip_empty_lines: true,
      // The library looks before it takes a character in: one more gets through.
      max_record_size: rowBytesMax - 1,
      to: most,
      on_record: (cells: readonly string[], { lines }) => {
        onRecord(cells, lines);
        return null;
      },
    });
    return null;
  } catch (thrown) {
    if (thrown instanceof CsvError) return faultOf(thrown);
    throw thrown;
  }
}

function faultOf({ code }: CsvError): RowFault {
  if (code === 'CSV_MAX_RECORD_SIZE') return 'too-long';
  return code === 'CSV_QUOTE_NOT_CLOSED' ? 'unclosed' : 'quote';
}
