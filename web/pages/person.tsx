// Who is at the bench: the name that entries are signed with. Kept on this device only.
import { useState } from "preact/hooks";
import { bench } from "../store/bench.ts";
import { person, setPerson } from "../store/device.ts";

export default function PersonPage() {
  return (
    <div class="page">
      <h1>Who is at the bench</h1>
      <Name />
    </div>
  );
}

function Name() {
  const [name, setName] = useState(person.value);
  const save = (submit: Event) => {
    submit.preventDefault();
    const device = bench.value?.device;
    if (device !== undefined && name.trim() !== "") void setPerson(device, name.trim());
  };
  return (
    <form class="type-row name-form" onSubmit={save}>
      <label class="unseen" for="person">
        Name, as entries will be signed
      </label>
      <input id="person" value={name} maxLength={60} required onInput={(input) => setName(input.currentTarget.value)} />
      <button type="submit" class="stamp-button">
        Sign with this
      </button>
    </form>
  );
}
