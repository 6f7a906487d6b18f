// Every command's row; each is made in the file of its name.
#pragma once

#include "cli/command/command.h"

namespace endband::cli {

Command book_start();
Command book_measure();
Command quote_make();
Command quote_list();
Command quote_show();
Command quote_explain();
Command material_add();
Command material_change();
Command material_list();
Command material_show();
Command material_price();
Command customer_add();
Command customer_change();
Command customer_list();
Command customer_show();
Command steps_set();
Command steps_list();
Command workshop_new();
Command workshop_set();
Command workshop_show();
Command workshop_check();
Command workshop_log();

}  // namespace endband::cli
