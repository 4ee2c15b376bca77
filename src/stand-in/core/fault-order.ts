import { SetsideError } from '../../base/index.ts';
import { type FaultFacts, type FaultName, type FaultOrder, faultFacts, faultNames } from './faults.ts';

/** Long enough for two hundred frame numbers; a longer list is a mistake. */
export const faultTextLengthMax = 1000;
/** As many frames as a session may have. */
const frameMax = 100_000;

/**
 * Reads `NAME[=VALUE][@FRAME[,FRAME…]]`: `strobe@4`, `cut=60@2,5`, `tint=4500`. Throws `stand-in-wrong-option` with a
 * message that says what was expected.
 */
export function parseFaultOrder(text: string): FaultOrder {
  if (text.length > faultTextLengthMax) {
    throw wrongFault(`a fault of at most ${faultTextLengthMax} characters`, `${text.length}`);
  }
  const [, nameText = '', valueText, framesText] = /^([^=@]*)(?:=([^@]*))?(?:@(.*))?$/s.exec(text) ?? [];
  const name = faultNames.find((one) => one === nameText.trim());
  if (name === undefined) throw wrongFault(`one of the faults ${faultNames.join(', ')}`, nameText);
  const facts = faultFacts[name];
  return { name, value: readValue(name, facts, valueText), frames: readFrames(name, facts, framesText) };
}

function readValue(name: FaultName, { value }: FaultFacts, text: string | undefined): number | null {
  if (value === null) {
    if (text === undefined) return null;
    throw wrongFault(`${name} without a value`, text);
  }
  if (text === undefined) return value.default;
  const figure = withoutUnit(text.trim(), value.unit);
  const shape = value.whole ? /^-?\d{1,9}$/ : /^-?\d{1,9}(\.\d{1,6})?$/;
  const read = shape.test(figure) ? Number(figure) : Number.NaN;
  if (read >= value.from && read <= value.to) return read;
  const unit = value.unit === '' ? '' : ` ${value.unit}`;
  throw wrongFault(
    `${name} to be ${value.whole ? 'a whole number ' : ''}from ${value.from} to ${value.to}${unit}`,
    text,
  );
}

/** `60` and `60%` are the same wish. */
function withoutUnit(text: string, unit: string): string {
  return unit !== '' && text.endsWith(unit) ? text.slice(0, -unit.length).trim() : text;
}

function readFrames(name: FaultName, facts: FaultFacts, text: string | undefined): FaultOrder['frames'] {
  if (text === undefined) return facts.frames === 'each' ? 'each' : [facts.frames];
  const frames = text.split(',').map((part) => {
    const frame = /^\d{1,6}$/.test(part.trim()) ? Number(part) : 0;
    if (frame >= 1 && frame <= frameMax) return frame;
    throw wrongFault(`frame numbers from 1 to ${frameMax} after @, separated by commas`, text);
  });
  if (facts.frames === 'each' || frames.length === 1) return frames;
  throw wrongFault(`one frame for ${name}`, text);
}

function wrongFault(expected: string, got: string): SetsideError {
  return new SetsideError(
    'stand-in-wrong-option',
    `--fault: expected ${expected}, got "${got.slice(0, 80)}"`,
    {
      cure: 'A fault is NAME, NAME=VALUE, and @FRAME,FRAME for single frames: cut=60@2,5.',
      details: { name: 'fault' },
    },
  );
}
