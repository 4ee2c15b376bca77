import { activeParts, localParts } from '../local-parts.ts';
import { neutralLook } from '../looks.ts';
import { type Look, lookSchema } from '../schema.ts';
import { areNeutralBands } from '../stages/hue-bands.ts';
import { isNeutralTint } from '../stages/tint.ts';
import type { ClfDocument } from './clf.ts';
import type { ColorCorrection } from './read-cdl.ts';

/** A correction as a look that does nothing else. `fallback` is its title where the correction has no id. */
export function correctionToLook({ id, description, cdl }: ColorCorrection, fallback: string): Look {
  const title = id.trim() || fallback;
  return lookSchema.parse({ ...neutralLook, title: title.slice(0, 80), description, cdl });
}

/** The CDL of a look, and the names of its other parts, which a correction cannot hold. */
export function lookToCorrection(look: Look): {
  readonly correction: ColorCorrection;
  readonly leftOut: readonly string[];
} {
  const { title, description, cdl } = look;
  return { correction: { id: title, description, cdl }, leftOut: otherParts(look) };
}

function otherParts(look: Look): readonly string[] {
  const { balance, exposureEv, flare, curve, bands, monochrome, tint } = look;
  const parts: readonly (readonly [string, boolean])[] = [
    ['balance', balance.from !== 'as-shot'],
    ['exposureEv', exposureEv !== 0],
    ['flare', flare !== 0],
    ['curve', curve !== null],
    ['bands', !areNeutralBands(bands)],
    ['monochrome', monochrome.amount !== 0],
    ['tint', !isNeutralTint(tint)],
  ];
  const active = parts.filter(([, isActive]) => isActive).map(([part]) => part);
  return [...active, ...activeParts(localParts(look))];
}

/** The corrections of a CLF document that is nothing else; null where another step stands among them. */
export function clfToCorrections({
  name,
  id,
  descriptions,
  nodes,
}: ClfDocument): readonly ColorCorrection[] | null {
  const corrections = nodes.flatMap((node) =>
    node.kind === 'ASC_CDL' && (node.style === 'Fwd' || node.style === 'FwdNoClamp')
      ? [
          {
            id: node.id || name || id,
            description: (node.descriptions ?? descriptions)[0] ?? '',
            cdl: node.cdl,
          },
        ]
      : [],
  );
  return corrections.length === nodes.length ? corrections : null;
}

/** A correction as CLF: the classic equation, with its cuts. */
export function correctionToClf({ id, description, cdl }: ColorCorrection): ClfDocument {
  return {
    id: id || 'correction',
    name: '',
    descriptions: description === '' ? [] : [description],
    inputDescriptor: '',
    outputDescriptor: '',
    nodes: [{ kind: 'ASC_CDL', style: 'Fwd', cdl, ...(id === '' ? {} : { id }) }],
  };
}
