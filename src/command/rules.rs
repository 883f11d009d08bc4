//! `sparestrip rules`

use std::process::ExitCode;

use sparestrip::report::{rule_list, rule_page, value_list};
use sparestrip::rule_book::{book, page};

use super::output::{print, print_error};
use super::{EXIT_FAILURE, RulesArgs};

pub(super) fn rules(args: &RulesArgs) -> ExitCode {
    let look = args.look.look();
    if args.values {
        return print(|out| out.write_all(look.plain(&value_list(look)).as_bytes()), ExitCode::SUCCESS);
    }
    let Some(name) = &args.name else {
        return print(|out| out.write_all(look.plain(&rule_list(look)).as_bytes()), ExitCode::SUCCESS);
    };
    match page(name) {
        Some(page) => print(|out| out.write_all(look.plain(&rule_page(page, look)).as_bytes()), ExitCode::SUCCESS),
        None => {
            let names: Vec<&str> = book().iter().map(|page| page.name).collect();
            let near = sparestrip::manuscript::nearest(name, names.iter().copied());
            let near = near.map(|near| format!(" Did you mean {near}?")).unwrap_or_default();
            print_error(&format!(
                "there is no rule {}.{near} `sparestrip rules` lists them all.",
                sparestrip::report::sanitize_line(name)
            ));
            ExitCode::from(EXIT_FAILURE)
        }
    }
}
