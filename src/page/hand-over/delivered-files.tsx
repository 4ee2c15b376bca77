import type { ReactNode } from 'react';
import type { Delivery } from '../../contract/index.ts';
import {
  destinationLabels,
  handOverLabels as labels,
  namesOfSome,
  type SaidOfFiles,
  saidOfFiles,
  sentence,
} from '../../words/index.ts';

/** Files that are listed; a delivery may have thousands, and its folder has them all in its list of contents. */
const listedMax = 100;

/** What was made, and what is to be said of it; what could not be made stands first. */
export function DeliveredFiles({ delivery }: { readonly delivery: Delivery }): ReactNode {
  const { files, missing } = delivery;
  const said = saidOfFiles(files.map(({ findings }) => findings));
  const rows = files.map((file, index) => ({ ...file, said: said.ofEach[index] ?? [] }));
  const spoken = rows.filter((row) => row.said.length > 0);
  const isQuiet = spoken.length === 0 && said.ofAll.length === 0 && said.ofSome.length === 0;
  return (
    <>
      {missing.length === 0 ? null : (
        <>
          <h4>{labels.notDelivered}</h4>
          <ul className="hand-files">
            {missing.slice(0, listedMax).map(({ frame, original, finding }) => (
              <li key={frame}>
                <strong>{original}</strong> {sentence(finding)}
              </li>
            ))}
          </ul>
          <More count={missing.length - listedMax} />
        </>
      )}
      <h4>{labels.whatIsThere}</h4>
      {files.length > 0 && isQuiet ? <p>{labels.nothingSaid}</p> : null}
      <SaidOfAll said={said} names={files.map(({ file }) => file)} />
      {spoken.length === 0 ? null : <p>{labels.said(spoken.length)}</p>}
      <ul className="hand-files">
        {[...spoken, ...rows.filter((row) => row.said.length === 0)]
          .slice(0, listedMax)
          .map(({ file, frame, widthPx, heightPx, bytes, said: texts, sentTo }) => (
            <li key={frame}>
              <strong>{file}</strong> {widthPx} x {heightPx} px, {labels.size(bytes)}
              {sentTo === null ? null : <small>, {destinationLabels.liesAt(sentTo)}</small>}
              {texts.map((text) => (
                <p key={text}>{text}</p>
              ))}
            </li>
          ))}
      </ul>
      <More count={files.length - listedMax} />
    </>
  );
}

interface SaidOfAllProps {
  readonly said: SaidOfFiles;
  /** Of the files, in their order. */
  readonly names: readonly string[];
}

/** What is the same for all, once, and what is for several, with their names. */
export function SaidOfAll({ said: { ofAll, ofSome }, names }: SaidOfAllProps): ReactNode {
  return (
    <>
      {ofAll.length === 0 ? null : (
        <p>
          {labels.ofAll} {ofAll.join(' ')}
        </p>
      )}
      {ofSome.map(({ text, files }) => (
        <p key={text}>
          {labels.ofSome(files.length)} {text}{' '}
          <small>{namesOfSome(files.map((index) => names[index] ?? ''))}</small>
        </p>
      ))}
    </>
  );
}

export function More({ count }: { readonly count: number }): ReactNode {
  return count > 0 ? <p className="hand-soft">{labels.more(count)}</p> : null;
}
