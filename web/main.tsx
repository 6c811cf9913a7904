// Starts the screens.
import { render } from "preact";
import { App } from "./app.tsx";
import { keepScreens } from "./parts/edition.tsx";
import { followAddress } from "./route.ts";
import { startBench } from "./store/bench.ts";
import "./style/base.css";
import "./style/shell.css";
import "./style/held.css";
import "./style/book.css";
import "./style/bench.css";
import "./style/pages.css";

const root = document.getElementById("book");
if (root !== null) {
  followAddress();
  render(<App />, root);
  void startBench();
  keepScreens();
}
