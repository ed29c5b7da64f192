// A pattern's page.

import { inYourYarn } from "./in_your_yarn.js";
import { keepPlace } from "./keeping.js";

keepPlace();
inYourYarn();
