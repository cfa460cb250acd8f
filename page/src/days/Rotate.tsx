/** Several recipes: which belongs on which day, in how many batches; or what no order of them reaches, and the least that would help. */
import { useState } from 'preact/hooks';
import type { Complaint, Rotation } from '../core/answers';
import { addText } from '../texts';
import { days as inDays, figure } from '../words';
import { chooseDish, dishes, eater, eaters, rotateAsked, rotateComplaints, rotateDays, rotateFor, rotation, ROTATE_MOST, rotating, weekOf } from './ask';
import { OneWeek } from './OneWeek';

const LENGTHS = [7, 14, 21, 28];

export function Rotate() {
  const r = rotation.value;
  const few = rotating.value.size < 2;
  return (
    <div class="rotate">
      <Choose />
      {few && <p class="hint">Choose at least two. A rotation says which of them belongs on which day, so that every run of days has enough of everything, with the fewest changes.</p>}
      {!few && rotateAsked.value && (
        <p class="hint" role="status">
          Looking through the orders …
        </p>
      )}
      {!few && <Complaints of={rotateComplaints.value} />}
      {!few && r && <Found r={r} />}
    </div>
  );
}

function Choose() {
  const chosen = rotating.value;
  return (
    <>
      <fieldset class="dishes no-print">
        <legend>The recipes</legend>
        {dishes.value.map((d) => (
          <label>
            <input type="checkbox" checked={chosen.has(d.id)} disabled={!chosen.has(d.id) && chosen.size >= ROTATE_MOST} onChange={(e) => chooseDish(d.id, e.currentTarget.checked)} /> {d.name}
          </label>
        ))}
      </fieldset>
      <p class="which-days no-print">
        {eaters.value.length > 1 && (
          <label class="as-text">
            <span>for </span>
            <select value={eater.value} onChange={(e) => (rotateFor.value = e.currentTarget.value)}>
              {eaters.value.map((n) => (
                <option value={n}>{n}</option>
              ))}
            </select>
          </label>
        )}
        <label class="as-text">
          <span>over </span>
          <select value={rotateDays.value} onChange={(e) => (rotateDays.value = Number(e.currentTarget.value))}>
            {LENGTHS.map((n) => (
              <option value={n}>{inDays(n)}</option>
            ))}
          </select>
        </label>
      </p>
    </>
  );
}

function Complaints({ of }: { of: Complaint[] }) {
  const wrong = of.filter((c) => c.level === 'error' && c.code !== 'danger');
  if (wrong.length === 0) return null;
  return (
    <ul class="complaints" aria-label="What was not understood about these recipes">
      {wrong.slice(0, 6).map((c) => (
        <li class="error">
          In {c.text}, {c.line > 0 ? `line ${c.line}: ` : ''}
          {c.message}
        </li>
      ))}
    </ul>
  );
}

function Found({ r }: { r: Rotation }) {
  const fed = r.calendar.length > 0;
  return (
    <>
      <p class="prose">{r.says}</p>
      {r.additions.length > 0 && (
        <>
          <h4>
            The smallest addition <small>to every bowl</small>
          </h4>
          <ul class="told-list">
            {r.additions.map((a) => (
              <li>{a.says}</li>
            ))}
          </ul>
          {r.says_with && <p class="prose">{r.says_with}</p>}
        </>
      )}
      <table class="weighings rotation">
        <caption class="unseen">The recipes of the rotation</caption>
        <thead>
          <tr>
            <th scope="col">recipe</th>
            {fed && <th scope="col">days</th>}
            {fed && <th scope="col">batches</th>}
            <th scope="col">alone</th>
          </tr>
        </thead>
        <tbody>
          {r.recipes.map((one) => (
            <tr>
              <th scope="row">{one.name}</th>
              {fed && <td>{one.days}</td>}
              {fed && <td>{one.days > 0 ? figure(one.batches) : ''}</td>}
              <td>{one.says}</td>
            </tr>
          ))}
        </tbody>
      </table>
      {r.plan && <Plan plan={r.plan} />}
      {r.week && <OneWeek week={r.week} several={false} />}
    </>
  );
}

function Plan({ plan }: { plan: string }) {
  const [kept, setKept] = useState('');
  const keep = async (): Promise<void> => {
    const id = await addText('plan', plan);
    setKept(plan);
    if (typeof id === 'string') weekOf.value = id;
  };
  return (
    <>
      <h4>As a plan</h4>
      <pre class="plan-text">{plan.trimEnd()}</pre>
      <p class="no-print">
        {kept === plan ? (
          'It is among your texts now.'
        ) : (
          <button type="button" class="deed" onClick={() => void keep()}>
            Keep this plan
          </button>
        )}
      </p>
    </>
  );
}
