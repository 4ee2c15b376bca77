import { type ReactNode, useEffect } from 'react';
import { cameraForms, type SheetForm, type SheetRow, sheetLabels, titleOf } from '../../words/index.ts';
import { PlainWords } from '../plain-words.tsx';
import { dayAndTime } from '../set/clock.ts';
import { addressOf, type PageState } from '../state/index.ts';
import '../style/camera-paper.css';
import { useEnter } from './use-enter.ts';

interface CameraPaperProps {
  readonly state: PageState;
  readonly name: string;
}

/** What to enter on one camera, large, to be laid beside it or printed: a sheet for each way in. */
export function CameraPaper({ state, name }: CameraPaperProps): ReactNode {
  const { station } = state;
  const camera = station?.cameras.find((each) => each.name === name) ?? null;
  useEffect(() => {
    document.title = titleOf(sheetLabels.titleOf(name));
  }, [name]);
  const wayIn = useEnter(station, name);
  if (station === null || wayIn === undefined) return null;
  const forms = camera === null ? [] : cameraForms(camera, station, wayIn);
  return (
    <div className="call-page">
      <nav className="call-acts paper" aria-label={sheetLabels.title}>
        <a href={addressOf({ page: 'line' })}>← {sheetLabels.back}</a>
        {camera === null ? null : (
          <>
            <a href={`/api/v1/cameras/${encodeURIComponent(name)}/sheet.pdf`} download>
              {sheetLabels.pdf}
            </a>
            <button type="button" className="press" onClick={() => print()}>
              {sheetLabels.print}
            </button>
          </>
        )}
      </nav>
      <main className="camera-papers">
        <h1 className="camera-paper-name">{name}</h1>
        {forms.length > 0 ? null : (
          <p className="camera-paper" role="alert">
            {camera === null ? sheetLabels.noSuchCamera(name) : sheetLabels.noForm}
          </p>
        )}
        {forms.map((form, at) => (
          <Form
            key={form.way}
            camera={name}
            form={form}
            at={at + 1}
            of={forms.length}
            written={sheetLabels.written(dayAndTime(Date.parse(station.now)), station.version)}
          />
        ))}
      </main>
    </div>
  );
}

interface FormProps {
  readonly camera: string;
  readonly form: SheetForm;
  /** Which of how many sheets, from 1. */
  readonly at: number;
  readonly of: number;
  readonly written: string;
}

function Form({ camera, form, at, of, written }: FormProps): ReactNode {
  return (
    <section className="camera-paper" aria-label={`${camera}, ${form.title}`}>
      <header>
        <span aria-hidden="true">{camera}</span>
        <h2>{form.title}</h2>
      </header>
      <p className="camera-paper-lead">
        {sheetLabels.lead} {of > 1 ? sheetLabels.oneIsEnough : ''}
      </p>
      <dl className="camera-paper-rows">
        {form.rows.map((row) => (
          <Row key={row.term} row={row} />
        ))}
      </dl>
      {form.compare.length === 0 ? null : (
        <dl className="camera-paper-compare">
          {form.compare.map((row) => (
            <Row key={row.term} row={row} />
          ))}
        </dl>
      )}
      {form.notes.map((note) => (
        <p key={note}>
          <PlainWords text={note} />
        </p>
      ))}
      <footer>
        <p>{sheetLabels.secret}</p>
        <p>
          {written} {sheetLabels.count(at, of)}.
        </p>
      </footer>
    </section>
  );
}

/** Groups stand apart to the eye; what is copied has no gaps. */
function Row({ row: { term, groups, exact, note } }: { readonly row: SheetRow }): ReactNode {
  return (
    <div>
      <dt>{term}</dt>
      <dd>
        <span className="camera-paper-value" data-exact={exact}>
          {groups.map((group, at) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: a group has no name but its place
            <span key={at}>{group}</span>
          ))}
        </span>
        {note === null ? null : <small>{note}</small>}
      </dd>
    </div>
  );
}
