import { type ReactNode, useEffect, useId, useState } from 'react';
import type { Job, MetadataSheetEntry } from '../../contract/index.ts';
import { metadataLabels as labels } from '../../words/index.ts';
import type { Save } from '../job/use-save.ts';
import {
  fetchMetadataSheets,
  forgetMetadataSheet,
  keepMetadataSheet,
  patchJob,
  wordsOf,
} from '../link/index.ts';
import { lastTitleOf, sheetOfJob } from './sheet-parts.ts';

interface KeptSheetsProps {
  readonly job: Job;
  readonly jobs: readonly Job[];
  readonly save: Save;
}

/** Words that are kept for further jobs: used here, kept from here, forgotten. */
export function KeptSheets({ job, jobs, save }: KeptSheetsProps): ReactNode {
  const id = useId();
  const [sheets, setSheets] = useState<readonly MetadataSheetEntry[]>([]);
  const [chosen, setChosen] = useState<string | null>(null);
  const [typed, setTyped] = useState<string | null>(null);
  const [told, setTold] = useState('');
  useEffect(() => {
    const ended = new AbortController();
    fetchMetadataSheets(ended.signal).then(setSheets, () => {});
    return () => ended.abort();
  }, []);
  const last = lastTitleOf(job, jobs);
  const offered =
    sheets.find(({ title }) => title === chosen) ?? sheets.find(({ title }) => title === last) ?? sheets[0];
  const own = sheetOfJob(job);
  const title = typed ?? (typeof own === 'string' ? '' : own.title);
  const tell = async (act: () => Promise<string>): Promise<void> => {
    try {
      setTold(await act());
      setSheets(await fetchMetadataSheets(AbortSignal.timeout(10_000)));
    } catch (thrown) {
      setTold(wordsOf(thrown, labels.failed));
    }
  };
  return (
    <fieldset className="metadata-kept">
      <legend>{labels.kept}</legend>
      {offered === undefined ? (
        <p>{labels.noneKept}</p>
      ) : (
        <div className="entry">
          <label htmlFor={id}>{labels.keptSheet}</label>
          <span className="metadata-row">
            <select id={id} value={offered.title} onChange={({ target }) => setChosen(target.value)}>
              {sheets.map((each) => (
                <option key={each.title} value={each.title}>
                  {each.title === last ? `${each.title} (${labels.lastOf(job.client)})` : each.title}
                </option>
              ))}
            </select>
            <button
              type="button"
              className="press"
              onClick={() =>
                tell(() => save(({ version }) => patchJob(job.code, { metadata: offered.text }, version)))
              }
            >
              {labels.use}
            </button>
            <button
              type="button"
              className="press"
              onClick={() =>
                tell(async () => {
                  await forgetMetadataSheet(offered.title);
                  return labels.forgotten(offered.title);
                })
              }
            >
              {labels.forget}
            </button>
          </span>
          <small>{labels.useReplaces}</small>
        </div>
      )}
      {job.metadata === '' || typeof own === 'string' ? null : (
        <div className="entry">
          <label htmlFor={`${id}-as`}>{labels.keepAs}</label>
          <span className="metadata-row">
            <input
              id={`${id}-as`}
              value={title}
              maxLength={80}
              onChange={({ target }) => setTyped(target.value)}
            />
            <button
              type="button"
              className="press"
              disabled={title.trim() === ''}
              onClick={() =>
                tell(async () => {
                  const kept = await keepMetadataSheet({ ...own, title: title.trim() });
                  setChosen(kept.title);
                  return labels.keptAs(kept.title);
                })
              }
            >
              {labels.keep}
            </button>
          </span>
        </div>
      )}
      <p role="status">{told}</p>
    </fieldset>
  );
}
