import { type ReactNode, useId, useState } from 'react';
import type { Job } from '../../contract/index.ts';
import type { MetadataSheet } from '../../deliver/index.ts';
import {
  digitalSourceNames,
  metadataLabels as labels,
  pictureWordNames,
  placePartNames,
} from '../../words/index.ts';
import { TextField } from '../job/text-field.tsx';
import type { Save } from '../job/use-save.ts';
import { patchJob } from '../link/index.ts';
import { listIn, listText, refusalOf, type SheetPath, textsAt, textWith } from './sheet-parts.ts';

export interface SheetProps {
  readonly job: Job;
  readonly sheet: MetadataSheet;
  readonly save: Save;
}

/**
 * Changes one value of the sheet as it stands by then: what somebody else changed elsewhere in it stays. Settles with why it was not taken:
 * what the schema says of it is known here, in better words than an answer's.
 */
export async function putWords(
  { job, save }: Pick<SheetProps, 'job' | 'save'>,
  path: SheetPath,
  value: string | readonly string[],
): Promise<string> {
  const why = refusalOf(textWith(job, path, value));
  if (why !== '') return why;
  return save((now) => patchJob(job.code, { metadata: textWith(now, path, value) }, now.version));
}

const lists: ReadonlySet<string> = new Set(['creators', 'keywords', 'persons']);
const longs: ReadonlySet<string> = new Set(['caption', 'usageTerms', 'instructions', 'extendedDescription']);
const helps: Readonly<Record<string, string>> = {
  creators: labels.listHelp,
  persons: labels.listHelp,
  keywords: labels.keywordsHelp,
  countryCode: labels.countryCodeHelp,
};

/** One text, or one list of texts, of the sheet. */
export function SheetField({ path, ...props }: SheetProps & { readonly path: SheetPath }): ReactNode {
  const key = path.at(-1) ?? '';
  const isList = lists.has(key);
  const texts = textsAt(props.sheet, path);
  const help = helps[key];
  return (
    <TextField
      label={pictureWordNames[key] ?? placePartNames[key] ?? key}
      value={isList ? listText(texts, path) : (texts[0] ?? '')}
      charactersMax={5000}
      {...(longs.has(key) ? { lines: 3 } : {})}
      {...(help === undefined ? {} : { help })}
      save={(typed) => putWords(props, path, isList ? listIn(typed, path) : typed.trim())}
    />
  );
}

const { digitalSourceType: sourceType } = pictureWordNames;

export function SourceTypeChoice(props: SheetProps): ReactNode {
  const id = useId();
  const [refusal, setRefusal] = useState('');
  const path: SheetPath = ['all', 'digitalSourceType'];
  return (
    <div className="entry">
      <label htmlFor={id}>{sourceType}</label>
      <select
        id={id}
        value={textsAt(props.sheet, path)[0] ?? ''}
        aria-describedby={`${id}-said`}
        onChange={async ({ target }) => setRefusal(await putWords(props, path, target.value))}
      >
        <option value="">{labels.notSaid}</option>
        {Object.entries(digitalSourceNames).map(([code, name]) => (
          <option key={code} value={code}>
            {name}
          </option>
        ))}
      </select>
      <p className="entry-said refusal" id={`${id}-said`} role="status">
        {refusal}
      </p>
    </div>
  );
}
