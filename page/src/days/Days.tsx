/** Weeks, journal and weight: under the three places, fetched when it is opened. */
import { weekComplaints } from './ask';
import { Journal } from './Journal';
import { Weeks } from './Weeks';
import { Weight } from './Weight';
import './days.css';

export function Days() {
  return (
    <div class="of-days">
      <Journal />
      <Weight />
      <Weeks complaints={weekComplaints.value} />
    </div>
  );
}
