# cmake -DPROGRAM=endband -DOUTPUT=endband.1.gz -P man_page.cmake
# The manual page as the program itself tells it, as small as it gets and without a time in it.
execute_process(COMMAND ${PROGRAM} help --man COMMAND gzip -9n OUTPUT_FILE ${OUTPUT}
  RESULTS_VARIABLE results COMMAND_ERROR_IS_FATAL ANY)
