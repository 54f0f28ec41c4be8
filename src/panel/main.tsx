import { render } from "preact"; render(null, document.getElementById("app") as HTMLElement);
